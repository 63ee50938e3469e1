import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../client/index.ts';
import { frozenOut, type IssuedRevision, type NamedBytes } from '../record/index.ts';
import { stateSlot } from '../site/client/index.ts';

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escapeHtml = (text: string): string => text.replaceAll(/[&<>"]/g, (sign) => escapes[sign] ?? sign);

/** The view that was frozen with a revision: its texts say how it stands, in the words of that day. */
function frozenView(folder: string, revision: string): Pick<ClientView, 'texts' | 'revision'> {
  return JSON.parse(readFileSync(join(folder, 'issued', revision, 'data', 'client.json'), 'utf8')) as ClientView;
}

/** How a revision stands, as one sentence; empty where its texts have none. */
function stateText(folder: string, { revision, state }: IssuedRevision): string {
  const { texts, revision: own } = frozenView(folder, revision);
  const values: Readonly<Record<string, string>> =
    state.kind === 'superseded'
      ? { ordinal: frozenView(folder, state.by).revision.ordinal, date: frozenView(folder, state.by).revision.date }
      : { date: own.validUntil };
  return (texts[`state.${state.kind}`] ?? '').replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
}

/** Fills the one empty slot of a frozen page; throws where the page has none, or more than one. */
export function fillState(html: string, text: string): string {
  const empty = stateSlot.open + stateSlot.close;
  if (html.split(empty).length !== 2) throw new Error('a frozen page has one empty slot for its state');
  const filled = text === '' ? '' : `<p>${escapeHtml(text)}</p>`;
  return html.replace(empty, () => stateSlot.open + filled + stateSlot.close);
}

/** The frozen files of every issued revision below its link; the page's slot says how it stands today, nothing else differs. */
export function publishRevisions(folder: string, revisions: readonly IssuedRevision[]): readonly NamedBytes[] {
  return revisions.flatMap((issued) =>
    issued.pages.flatMap(({ folder: out, token }) =>
      frozenOut(folder, issued.revision, out).map(({ path, bytes }) => ({
        path: `client/${token}/${path}`,
        bytes:
          path === 'index.html' ? Buffer.from(fillState(Buffer.from(bytes).toString('utf8'), stateText(folder, issued)), 'utf8') : bytes,
      })),
    ),
  );
}
