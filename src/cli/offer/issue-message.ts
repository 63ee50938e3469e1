import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ClientView } from '../../client/index.ts';
import { sideBySide } from '../../draw/index.ts';
import { type PageOf, type ProposalInput, pageOfDecider } from '../../spec/index.ts';
import { type MailPerson, mailDraft } from '../../write/client/index.ts';
import { type Fonts, sheetToPng } from '../../write/index.ts';

/** Width of the picture of all designs, in pixels. */
const PICTURE_PX = 1200;

/** A message with the link of a page, ready to be read over and sent. */
export interface ReadyMessage {
  readonly page: string;
  /** The link in full, or as far as it is known. */
  readonly link: string;
  readonly from: MailPerson;
  readonly to: readonly MailPerson[];
  readonly subject: string;
  readonly text: string;
}

type Said = (key: string, values?: Readonly<Record<string, string>>) => string;

function sayer(view: ClientView): Said {
  return (key, values = {}) => {
    const text = view.texts[key];
    if (text === undefined) throw new Error(`no text with the key ${key} in ${view.language}`);
    return text.replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
  };
}

/** Those who decide and are shown this page; else whom it is for. */
function readers(
  view: ClientView,
  page: PageOf,
  { proposal }: ProposalInput,
): { readonly to: readonly MailPerson[]; readonly decide: boolean } {
  const own = Object.entries(proposal.deciders.people).filter(([id]) => pageOfDecider(proposal, id).id === page.id);
  if (own.length > 0) return { to: own.map(([, { name, email }]) => ({ name, address: email ?? '' })), decide: true };
  const isClient = page.for === undefined || page.for === proposal.client.name;
  return { to: [{ name: page.for ?? view.client.name, address: isClient ? (proposal.client.email ?? '') : '' }], decide: false };
}

/** Where a page will be: below the site that its sender names; nobody's reader is led to another's. */
function linkOf(page: PageOf, token: string, { library }: ProposalInput, say: Said): string {
  const site = page.brand === undefined ? library.maker.site : page.brand.site;
  return site === undefined ? say('issue.mail-no-site', { token }) : `${site.replace(/\/+$/, '')}/${token}/`;
}

const listed = (view: ClientView, names: readonly string[]): string =>
  new Intl.ListFormat(view.language, { type: 'conjunction' }).format(names);

/** The message for the reader of a page, in the proposal's language: what it holds, until when, who decides, how to answer. */
export function readyMessage(view: ClientView, page: PageOf, token: string, input: ProposalInput): ReadyMessage {
  const say = sayer(view);
  const { maker, revision } = view;
  const { to, decide } = readers(view, page, input);
  const link = linkOf(page, token, input, say);
  const letters = view.designs.map(({ id }) => id);
  const designs = say(letters.length === 1 ? 'issue.mail-design' : 'issue.mail-designs', { designs: listed(view, letters) });
  const holdsKey = view.audience === 'payer' ? 'issue.mail-holds' : 'issue.mail-holds-no-price';
  const holds = say(letters.length === 1 ? holdsKey : `${holdsKey}-several`, { designs });
  const tellsChanges = view.changed !== undefined || revision.changes !== undefined;
  const answer = say(view.audience === 'payer' ? 'issue.mail-answer' : 'issue.mail-answer-no-price', { date: revision.validUntil });
  const paragraphs = [
    say('issue.mail-dear', {
      names: listed(
        view,
        to.map(({ name = '' }) => name),
      ),
    }),
    [say('issue.mail-ready', { title: view.title }), ...(tellsChanges ? [say('issue.mail-changed')] : []), holds].join(' '),
    ...(revision.orderStands === undefined ? [] : [revision.orderStands]),
    link,
    say('issue.mail-private'),
    ...(decide ? [`${answer} ${view.deciders.sentence}`, say('issue.mail-how')] : []),
    say('issue.mail-picture'),
    ...(view.invented ? [say('page.invented')] : []),
    [maker.name, maker.trade, maker.address, maker.telephone].filter((line) => line !== '').join('\n'),
  ];
  return {
    page: page.id,
    link,
    from: { name: maker.name, address: maker.email },
    to: to.filter(({ address }) => address !== ''),
    subject: say('issue.mail-subject', { ordinal: revision.ordinal, title: view.title }),
    text: `${paragraphs.join('\n\n')}\n`,
  };
}

/** The designs beside each other as a picture: PNG, 1200 px wide. */
function designsPicture(view: ClientView, fonts: Fonts): Uint8Array {
  const pictures = view.designs.map(({ id, name, picture }) => ({ sheet: picture, caption: `${id}  ${name}` }));
  return sheetToPng(sideBySide(pictures, fonts.measure), PICTURE_PX, fonts.outline);
}

/**
 * Writes the draft of a mail below the proposal's outbox: the message, and the picture of all designs attached. Gives its path
 * below the workspace. `at` is the instant of the revision.
 */
export async function writeDraft(workspace: string, view: ClientView, message: ReadyMessage, at: string, fonts: Fonts): Promise<string> {
  const { from, to, subject, text, page } = message;
  const revision = view.revision.id;
  const bytes = await mailDraft({
    from,
    to,
    subject,
    text,
    attachments: [{ name: `designs-${revision}.png`, type: 'image/png', bytes: designsPicture(view, fonts) }],
    date: at,
    messageIdSeed: `${view.proposal} ${revision} ${page}`,
  });
  const path = ['proposals', view.proposal, 'outbox'];
  mkdirSync(join(workspace, ...path), { recursive: true });
  const name = `${revision}-${page}.eml`;
  writeFileSync(join(workspace, ...path, name), bytes);
  return [...path, name].join('/');
}
