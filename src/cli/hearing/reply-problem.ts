import type { Problem } from '../../problem/index.ts';

/** What a way to mend is told for. */
export interface MendFor {
  readonly slug: string;
  /** Ids of those who decide. */
  readonly people: readonly string[];
}

const insist = 'if you hold to it all the same: --insist "the reason", which is recorded';

/** How to mend each, in the order of the catalogue. */
const mends: Readonly<Record<string, (of: MendFor) => string>> = {
  'reply/cut': () => 'paste the code to its end, or ask for it again; --words keeps the text as plain words',
  'reply/mistyped': () => 'compare it sign by sign, or ask for it again; --words keeps the text as plain words',
  'reply/several': () => 'leave the one that counts',
  'reply/words-differ': () => `ask what was meant; ${insist}`,
  'reply/words-missing': () => 'ask for the whole letter if there was a remark in it',
  'reply/unknown-revision': ({ slug }) => `look whether it belongs to another proposal than ${slug}; --words keeps it as plain words`,
  'reply/superseded': () => `ask for an answer to the newest; ${insist}`,
  'reply/too-late': ({ slug }) => `issue ${slug} again with a later day; if it came earlier: --on DATE; ${insist}`,
  'reply/unknown-design': () => 'ask which design is meant; --words keeps it as plain words',
  'reply/options-differ': () => 'ask for the options by name; --words keeps it as plain words',
  'reply/unknown-options': () => `ask which of them are wanted; ${insist}`,
  'reply/total-differs': () => `find out which page was answered; ${insist}`,
  'reply/total-missing': () => `ask for the letter of the page with prices; ${insist}`,
  'reply/terms-differ': () => `ask for an answer to the page as it stands; ${insist}`,
  'reply/unknown-decider': ({ people }) => `those who decide are ${people.join(', ')}: --who`,
  'reply/person-missing': ({ people }) => `say whose it is: --who ${people.join(' or --who ')}`,
  'reply/person-differs': () => `leave --who out to follow the letter; ${insist}`,
  'reply/name-of-another': () => `ask each of the two for a letter of their own; ${insist}`,
  'reply/sender-differs': () => 'ask whether both have answered for themselves',
  'reply/sender-unknown': ({ slug }) =>
    `if the address is theirs, write it into deciders.people of proposals/${slug}/proposal.yaml; else ask them by another way`,
  'reply/sentences-differ': () => `ask which of the two is meant; ${insist}`,
  'reply/turned-words': () => 'ask what was meant where it reads oddly now',
  'reply/overtaken': () => `an old mail was probably given again; ${insist}`,
  'reply/already-confirmed': ({ slug }) => `a changed mind is a change to the order now: leafwright change ${slug} --help; ${insist}`,
  'reply/closed': ({ slug }) => `issue a new revision of ${slug} first; ${insist}`,
  'reply/unread': () => 'read the words above: if they are a yes, add --yes; if not, --words keeps them as plain words',
  'reply/unknown-question': () => 'draft a new confirmation with --understood; --words keeps this as plain words',
  'reply/nothing-offered': ({ slug }) => `issue a revision to be answered: leafwright issue ${slug}`,
  'reply/paper-unreadable': () => 'give the scan as PDF, JPEG or PNG',
};

/** A problem of an answer, with how to mend it. */
export function replyProblem(code: string, says: string, of: MendFor, more: Partial<Problem> = {}): Problem {
  const mend = mends[code]?.(of);
  return { code, severity: 'error', title: says, path: [], ...(mend === undefined ? {} : { mend }), ...more };
}

/** A warning that words held signs which turn the direction of reading, where they did. */
export function turnedWords(slug: string, signs: readonly string[]): readonly Problem[] {
  if (signs.length === 0) return [];
  const says = `the words held signs that turn the direction of reading, and were kept without them: ${signs.join(', ')}`;
  return [replyProblem('reply/turned-words', says, { slug, people: [] }, { severity: 'warning' })];
}
