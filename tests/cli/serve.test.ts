import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { headerRecipe, headerRecipeText } from '../../src/cli/make/headers.ts';
import { serveFolder } from '../../src/cli/make/serve.ts';

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** A request as it stands: unlike `fetch`, `..` and the Host header go out unchanged. */
function ask(port: number, path: string, options: { method?: string; host?: string } = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = httpRequest(
      { host: '127.0.0.1', port, path, method: options.method ?? 'GET', headers: { Host: options.host ?? `127.0.0.1:${port}` } },
      (response) => {
        let body = '';
        response.setEncoding('utf8');
        response.on('data', (part: string) => {
          body += part;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
      },
    );
    asked.on('error', reject);
    asked.end();
  });
}

async function served(): Promise<number> {
  const top = mkdtempSync(join(tmpdir(), 'leafwright-serve-'));
  const root = join(top, 'dist');
  mkdirSync(join(root, 'workshop'), { recursive: true });
  mkdirSync(join(root, 'client/abc'), { recursive: true });
  writeFileSync(join(top, 'secret.txt'), 'rates');
  writeFileSync(join(top, 'dist-2.txt'), 'rates');
  writeFileSync(join(root, 'workshop/index.html'), '<p>workshop</p>');
  writeFileSync(join(root, 'client/abc/scope-a.pdf'), '%PDF');
  symlinkSync(join(root, 'workshop'), join(root, 'client/abc/ways'));
  const { server, port } = await serveFolder(root, '/workshop/', 0);
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
    rmSync(top, { recursive: true, force: true });
  });
  return port;
}

describe('the preview server', () => {
  test('serves files, folders by their index, and leads to the workshop', async () => {
    const port = await served();
    expect(await ask(port, '/workshop/')).toMatchObject({ status: 200, body: '<p>workshop</p>' });
    expect(await ask(port, '/')).toMatchObject({ status: 302, headers: { location: '/workshop/' } });
    expect(await ask(port, '/workshop')).toMatchObject({ status: 302, headers: { location: '/workshop/' } });
    expect(await ask(port, '/client/abc/scope-a.pdf')).toMatchObject({ status: 200, headers: { 'content-type': 'application/pdf' } });
    expect(await ask(port, '/client/abc/scope-a.pdf', { method: 'HEAD' })).toMatchObject({ status: 200, body: '' });
  });

  test('sends the header recipe with everything, a page or not', async () => {
    const port = await served();
    for (const path of ['/workshop/', '/client/abc/scope-a.pdf', '/nothing']) {
      const { headers } = await ask(port, path);
      for (const [name, value] of headerRecipe) expect(headers[name.toLowerCase()]).toBe(value);
    }
    expect(headerRecipeText()).toContain("Content-Security-Policy: frame-ancestors 'none'");
    expect(headerRecipeText()).toContain('X-Robots-Tag: noindex, nofollow, noarchive');
  });

  test.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/workshop/../../secret.txt',
    '/..%5csecret.txt',
    '/../dist-2.txt',
    '/%00',
    '/%E0%A4%A',
  ])('never leaves its folder: %s', async (path) => {
    const { status, body } = await ask(await served(), path);
    expect([status, body]).toEqual([404, 'There is no such page here.\n']);
  });

  test('does not list a folder, takes nothing in, and answers this machine alone', async () => {
    const port = await served();
    expect((await ask(port, '/client/abc/')).status).toBe(404);
    expect((await ask(port, '/workshop/', { method: 'POST' })).status).toBe(405);
    expect((await ask(port, '/workshop/', { host: 'elsewhere.example' })).status).toBe(403);
  });
});
