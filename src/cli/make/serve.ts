import { createReadStream, statSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';
import { headerRecipe } from './headers.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.pdf': 'application/pdf',
  '.woff2': 'font/woff2',
  '.ics': 'text/calendar; charset=utf-8',
  '.glb': 'model/gltf-binary',
  '.txt': 'text/plain; charset=utf-8',
};

/** The file that a path of a request means below a folder, or nothing. A folder is its index.html. */
function fileFor(root: string, url: string): { readonly file: string; readonly size: number } | { readonly moved: string } | undefined {
  const path = url.split(/[?#]/)[0] ?? '/';
  let name: string;
  try {
    name = decodeURIComponent(path);
  } catch {
    return undefined;
  }
  if (name.includes('\0') || name.includes('\\')) return undefined;
  const full = normalize(join(root, name));
  if (full !== root && !full.startsWith(root + sep)) return undefined;
  const stat = statSync(full, { throwIfNoEntry: false });
  if (stat?.isFile() === true) return { file: full, size: stat.size };
  if (stat?.isDirectory() !== true) return undefined;
  if (!path.endsWith('/')) return { moved: `${path}/` };
  const index = join(full, 'index.html');
  const found = statSync(index, { throwIfNoEntry: false });
  return found?.isFile() === true ? { file: index, size: found.size } : undefined;
}

/** Only this machine asks: a page elsewhere that points its own name here is refused. */
const isOurs = (host: string | undefined): boolean => /^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/.test(host ?? '');

/** What a request gets: a text, another address, or a file. */
type Reply =
  | { readonly status: number; readonly text: string }
  | { readonly moved: string }
  | { readonly file: string; readonly size: number };

function replyTo(root: string, home: string, request: IncomingMessage): Reply {
  if (!isOurs(request.headers.host)) return { status: 403, text: 'This server answers this machine alone.' };
  if (request.method !== 'GET' && request.method !== 'HEAD') return { status: 405, text: 'Only reading is possible here.' };
  const url = request.url ?? '/';
  return url === '/' ? { moved: home } : (fileFor(root, url) ?? { status: 404, text: 'There is no such page here.' });
}

function send(reply: Reply, isHead: boolean, response: ServerResponse): void {
  for (const [name, value] of headerRecipe) response.setHeader(name, value);
  response.setHeader('Cache-Control', 'no-store');
  if ('status' in reply) {
    response.writeHead(reply.status, { 'Content-Type': 'text/plain; charset=utf-8' });
    response.end(`${reply.text}\n`);
  } else if ('moved' in reply) {
    response.writeHead(302, { Location: reply.moved });
    response.end();
  } else {
    const type = types[extname(reply.file)] ?? 'application/octet-stream';
    response.writeHead(200, { 'Content-Type': type, 'Content-Length': reply.size });
    if (isHead) response.end();
    else
      createReadStream(reply.file)
        .on('error', () => response.destroy())
        .pipe(response);
  }
}

/** Serves a folder to this machine, reading only, with the header recipe; `/` leads to `home`. Resolves once it listens. */
export function serveFolder(root: string, home: string, port: number): Promise<{ readonly server: Server; readonly port: number }> {
  const server = createServer((request, response) => send(replyTo(normalize(root), home, request), request.method === 'HEAD', response));
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      const address = server.address();
      resolve({ server, port: typeof address === 'object' && address !== null ? address.port : port });
    });
  });
}
