import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import PostalMime from 'postal-mime';
import { pageOfDecider } from '../../spec/index.ts';
import { type Desk, nameOf } from '../record-desk.ts';

/** What lies in a proposal's outbox, as far as one person is concerned: by path below the proposal's folder. */
export interface Drafts {
  /** Drafts that are to this person alone. */
  readonly own: readonly string[];
  /** Those that name the person, or may do so, and are for others too. */
  readonly rest: readonly { readonly path: string; readonly why: string }[];
}

/** One draft: the files of one name, with what can be read of them. */
interface Draft {
  readonly name: string;
  readonly files: readonly string[];
  /** Addresses and names to which its mail goes, in lower case; undefined where it has no mail. */
  readonly to?: readonly { readonly address: string; readonly name: string }[];
  /** Its words as far as they are no document. */
  readonly text: string;
  readonly hasPaper: boolean;
}

const lower = (text: string | undefined): string => (text ?? '').normalize('NFC').toLowerCase();

async function readDraft(folder: string, name: string, files: readonly string[]): Promise<Draft> {
  const texts = files.filter((file) => file.endsWith('.txt')).map((file) => readFileSync(join(folder, file), 'utf8'));
  const mails = await Promise.all(
    files.filter((file) => file.endsWith('.eml')).map((file) => PostalMime.parse(readFileSync(join(folder, file)))),
  );
  const to = mails.flatMap((mail) =>
    [...(mail.to ?? []), ...(mail.cc ?? []), ...(mail.bcc ?? [])].map((one) => ({ address: lower(one.address), name: lower(one.name) })),
  );
  return {
    name,
    files,
    ...(mails.length === 0 ? {} : { to }),
    text: [...texts, ...mails.flatMap((mail) => [mail.subject ?? '', mail.text ?? '', ...to.map((one) => one.name)])].join('\n'),
    hasPaper: files.some((file) => !/\.(?:txt|eml)$/.test(file)),
  };
}

/** Whether a draft is to this person alone: by its name, by whom its mail goes to, or because nobody else decides on its page. */
function isTo(draft: Draft, desk: Desk, person: string): boolean {
  const { proposal } = desk.input;
  const { people } = proposal.deciders;
  const email = lower(people[person]?.email);
  const name = lower(nameOf(desk, person));
  if (new RegExp(`^confirm-\\d+-${person}$`).test(draft.name)) return true;
  const to = draft.to ?? [];
  if (to.some((one) => !(email !== '' && one.address === email) && one.name !== name)) return false;
  if (to.length > 0) return true;
  const others = Object.keys(people).filter((id) => id !== person);
  if (others.length === 0) return true;
  const page = /^r\d+-(.+)$/.exec(draft.name)?.[1];
  const own = pageOfDecider(proposal, person);
  return page === own.id && own.for === undefined && others.every((id) => pageOfDecider(proposal, id).id !== page);
}

/** Files of a folder by path below it, in order; none where there is no such folder. */
export const filesBelow = (folder: string): readonly string[] =>
  !existsSync(folder)
    ? []
    : readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile())
        .map((entry) => relative(folder, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
        .sort();

/** The drafts of a proposal. `holdsName` tells whether a text names the person. */
export async function draftsOf(desk: Desk, person: string, holdsName: (text: string) => boolean): Promise<Drafts> {
  const folder = join(desk.folder, 'outbox');
  const files = filesBelow(folder);
  const byName = Map.groupBy(files, (file) => file.replace(/\.[^./]*$/, ''));
  const drafts = await Promise.all([...byName].map(([name, some]) => readDraft(folder, name, some)));
  const isOwn = (draft: Draft): boolean => isTo(draft, desk, person);
  const rest = drafts.filter((draft) => !isOwn(draft));
  return {
    own: drafts.filter(isOwn).flatMap((draft) => draft.files.map((file) => `outbox/${file}`)),
    rest: rest.flatMap((draft) => {
      const isNamed = holdsName(draft.text);
      if (!isNamed && !draft.hasPaper) return [];
      const why = isNamed
        ? 'names the person, and is for others too: delete it once it is sent'
        : 'a paper that may name the person: delete it';
      return draft.files.map((file) => ({ path: `outbox/${file}`, why }));
    }),
  };
}

/** Deletes drafts: they are copies of no weight, and nothing on record names them. */
export function deleteDrafts(folder: string, paths: readonly string[]): void {
  for (const path of paths) rmSync(join(folder, ...path.split('/')), { force: true });
}
