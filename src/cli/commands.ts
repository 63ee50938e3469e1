import type { Command } from './command.ts';
import { asOfOption, jsonOption, workspaceOption } from './command.ts';
import {
  careCommand,
  claimCommand,
  deliveryNoteCommand,
  handOverCommand,
  hoursCommand,
  lessonsCommand,
  measureCommand,
  serviceCommand,
  usedCommand,
} from './hand-over-commands.ts';
import type { CommandGroup } from './help.ts';
import {
  attachCommand,
  confirmCommand,
  eraseCommand,
  lostCommand,
  noteCommand,
  payCommand,
  sampleCommand,
  stageCommand,
  statusCommand,
} from './record-commands.ts';

const newCommand: Command = {
  name: 'new',
  says: 'begin a proposal, from an example or an issued one',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    from: { says: 'dining (default), pedestal or desk; or an issued revision, as oak@r2', value: 'STARTER' },
    ...workspaceOption,
    'as-of': { says: 'stands in for the clock, as 2027-02-14', value: 'DATE' },
  },
  more: 'PROPOSAL names its folder: small letters, digits and hyphens. Where there is no workspace yet, one is made.',
  example: ['leafwright new harbour-house --from pedestal', 'writes proposals/harbour-house/ with a round table in it'],
  run: async (given, terminal) => (await import('./offer/new.ts')).runNew(given, terminal),
};

const checkCommand: Command = {
  name: 'check',
  says: 'say what is wrong or unusual, and write nothing',
  words: '[PROPOSAL...]',
  count: [0, 1000],
  options: { ...workspaceOption, ...asOfOption, ...jsonOption },
  more: 'Errors stop a build; warnings are for you to weigh. Each points at the line and says how to mend it.',
  example: ['leafwright check harbour-house', 'reads proposals/harbour-house/, computes every design and option'],
  run: async (given, terminal) => (await import('./make/check.ts')).runCheck(given, terminal),
};

const buildCommand: Command = {
  name: 'build',
  says: 'make the pages: dist/client and dist/workshop',
  words: '',
  count: [0, 0],
  options: { ...workspaceOption, ...asOfOption, ...jsonOption },
  more: 'dist/client is to be uploaded and holds issued revisions alone; drafts are in dist/workshop, for yourself. dist/ is replaced whole, or left as it was.',
  example: ['leafwright build', 'builds the workspace in the current folder'],
  run: async (given, terminal) => (await import('./make/build.ts')).runBuild(given, terminal),
};

const previewCommand: Command = {
  name: 'preview',
  says: 'show the drafts in a browser while you write',
  words: '',
  count: [0, 0],
  options: { port: { says: 'port on this machine (default 4310; 0 for any free one)', value: 'N' }, ...workspaceOption, ...asOfOption },
  more: 'Builds anew when a file changes; reload the page then. Answers this machine alone. Ctrl-C ends it.',
  example: ['leafwright preview --port 4400', 'serves the workshop at http://127.0.0.1:4400/'],
  run: async (given, terminal) => (await import('./make/preview.ts')).runPreview(given, terminal),
};

const figuresCommand: Command = {
  name: 'figures',
  says: 'print what was computed',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    revision: { says: 'an issued revision, as r1 (default: the draft)', value: 'rN' },
    variant: { says: 'one design, as A', value: 'ID' },
    ...workspaceOption,
    ...jsonOption,
  },
  more: 'With --json: leafwright/figures/1, described by templates/schemas/figures.json. Where there are errors: what could be computed all the same, and exit code 1.',
  example: ['leafwright figures tollefsen-quill --variant A --json', 'prints sizes, masses, loads, cutting list and prices of design A'],
  run: async (given, terminal) => (await import('./make/figures.ts')).runFigures(given, terminal),
};

const issueCommand: Command = {
  name: 'issue',
  says: 'freeze the draft, give it a link, draft the message',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    revision: { says: 'issue only if the draft is this one, as r2', value: 'rN' },
    insist: { says: 'issue below the floor, or on a quotation that has run out', value: '"WHY"' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'What is issued can not be changed or issued again; the next draft gets the next number in proposal.yaml. What stands in the way is said all at once.',
  example: ['leafwright issue harbour-house --revision r1', 'writes proposals/harbour-house/issued/r1/ and adds a line to decisions.jsonl'],
  run: async (given, terminal) => (await import('./offer/issue.ts')).runIssue(given, terminal),
};

const verifyCommand: Command = {
  name: 'verify',
  says: 'prove that nothing issued was changed since',
  words: '[PROPOSAL...]',
  count: [0, 1000],
  options: { ...workspaceOption, ...jsonOption },
  more: 'A chain can not show that its last entries were cut off: note the digest of the last entry elsewhere.',
  example: ['leafwright verify tollefsen-quill', 'compares every file that was issued to this client with its digest'],
  run: async (given, terminal) => (await import('./on-record/verify.ts')).runVerify(given, terminal),
};

const keyCommand: Command = {
  name: 'key',
  says: 'set up the key that signs scopes, or show it',
  words: 'new|show',
  count: [1, 1],
  options: {
    name: { says: 'name in the certificate (default: the maker of the workspace)', value: 'NAME' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'The file lies in your configuration folder, never in a workspace; its passphrase is read from LEAFWRIGHT_KEY_PASSPHRASE. A PKCS #12 file of your own with an RSA key may stand in its place.',
  example: ['leafwright key show', 'prints the SHA-256 of the certificate, to give to clients'],
  run: async (given, terminal) => (await import('./order/key.ts')).runKey(given, terminal),
};

const scopeCommand: Command = {
  name: 'scope',
  says: 'make the scope of work with its approval in it',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    'without-price': { says: 'for those who were shown no price' },
    unsigned: { says: 'leave the signature out where a key is set up' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'Made once, from what was frozen, recorded by its digest, and signed where a key is set up: leafwright key new.',
  example: ['leafwright scope harbour-house', 'writes proposals/harbour-house/records/scope-r2-a.pdf'],
  run: async (given, terminal) => (await import('./order/scope.ts')).runScope(given, terminal),
};

const requestCommand: Command = {
  name: 'request',
  says: 'ask for an instalment, as a PDF file',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    instalment: { says: 'which one, counted from 1; several in one paper as 1,2', value: 'N' },
    due: { says: 'the day on which it is due (default: in 14 days)', value: 'DATE' },
    number: { says: 'number of the request (default: proposal and instalment)', value: 'TEXT' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'It is no invoice for tax. Bank details stand under payment in templates/maker.yaml.',
  example: ['leafwright request harbour-house --instalment 2', 'writes proposals/harbour-house/outbox/request-harbour-house-2.pdf'],
  run: async (given, terminal) => (await import('./order/request.ts')).runRequest(given, terminal),
};

const statementCommand: Command = {
  name: 'statement',
  says: 'say what is due, paid and open, as a PDF file',
  words: 'PROPOSAL',
  count: [1, 1],
  options: { ...workspaceOption, ...asOfOption, ...jsonOption },
  more: 'Taken from the record; records nothing itself.',
  example: ['leafwright statement harbour-house', 'writes the statement of today into proposals/harbour-house/outbox/'],
  run: async (given, terminal) => (await import('./order/statement.ts')).runStatement(given, terminal),
};

const recordCommand: Command = {
  name: 'record',
  says: 'record what somebody who decides has answered',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    file: { says: 'a saved mail (.eml), its text, a letter, what a form posted; - for standard input', value: 'F' },
    who: { says: 'whose answer it is, by id', value: 'ID' },
    how: { says: 'how plain words came: visit, telephone, message (default), letter, other', value: 'HOW' },
    on: { says: 'the day on which it came (default: that of the mail, else today)', value: 'DATE' },
    insist: { says: 'record it though something does not fit; the reason is recorded', value: 'REASON' },
    words: { says: 'keep the text as plain words, whatever code is in it' },
    understood: { says: 'draft a confirmation of what was understood, as "A ceramic"', value: 'CHOICE' },
    yes: { says: 'the answer to a confirmation is a yes: you have read its words' },
    paper: { says: 'a scan of a signed scope; with --who --design --options --revision --fingerprint', value: 'SCAN' },
    design: { says: 'of a paper: the design', value: 'ID' },
    options: { says: 'of a paper: its options, or none', value: 'IDS' },
    revision: { says: 'of a paper: the revision printed on it', value: 'rN' },
    fingerprint: { says: 'of a paper: the fingerprint printed on it, ten signs at least', value: 'SIGNS' },
    total: { says: 'of a paper: the total on it, to be compared', value: 'AMOUNT' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'WORDS: a reply code, a pasted mail with its quote marks, or plain words; - for standard input. Plain words are kept and approve nothing.\nA code is held against what was issued: what does not fit is told, and nothing is written.',
  example: [
    'leafwright record harbour-house "The round one." --who maren --how telephone',
    'keeps the words; with --understood "A" it drafts a confirmation whose answer approves',
  ],
  run: async (given, terminal) => (await import('./hearing/record.ts')).runRecord(given, terminal),
};

const reviseCommand: Command = {
  name: 'revise',
  says: 'begin the next revision, or mix two designs',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    valid: { says: 'last day of the new offer (default: as many days as the last one had)', value: 'DATE' },
    free: { says: 'charge nothing for a round beyond those included', value: 'REASON' },
    mix: { says: 'a new design: "A.top B.base C.finish"; the finish is the top\'s where silent', value: 'PARTS' },
    as: { says: 'with --mix: the letter of the new design (default: the first free one)', value: 'ID' },
    name: { says: 'with --mix: its name', value: 'NAME' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'Sets id, date, last day and changes in proposal.yaml; changes holds what was said, to be rewritten before issue. The base brings its overhangs, joints, free parts, height and wood. --mix begins the next revision where none is begun.',
  example: [
    'leafwright revise harbour-house --mix "A.top B.base"',
    'writes the next free design of proposals/harbour-house/variants/ and shows its answers beside those of A and B',
  ],
  run: async (given, terminal) => (await import('./offer/revise.ts')).runRevise(given, terminal),
};

const changeCommand: Command = {
  name: 'change',
  says: 'price the draft as a change to the order',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    design: { says: 'the design of the draft (default: the one that is ordered)', value: 'X' },
    options: { says: 'its options, or none (default: those that are ordered)', value: 'A,B' },
    insist: { says: 'price it though a wish is no longer met', value: '"WHY"' },
    write: { says: "put its lines and revision.change into the draft's proposal.yaml" },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'Difference of the designs, what is made already and lost, work done again, planning, new weeks: from the stage that the record has reached. What no longer fits is said first. Costs are printed for you alone; the client sees the amounts.',
  example: ['leafwright change harbour-house --design A', 'compares the draft with what was ordered; --write makes it ready to issue'],
  run: async (given, terminal) => (await import('./change/change.ts')).runChange(given, terminal),
};

const cancelCommand: Command = {
  name: 'cancel',
  says: 'say what a cancellation leaves due, and record it',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    who: { says: 'who cancels: the id of somebody who decides', value: 'PERSON' },
    reason: { says: 'why; kept apart, for you alone', value: '"WHY"' },
    on: { says: 'the day, as 2027-02-14 (default: today)', value: 'DATE' },
    yes: { says: 'record it; without it nothing is written' },
    ...workspaceOption,
    ...asOfOption,
    ...jsonOption,
  },
  more: 'By the rules of your terms at the stage that the record has reached. No legal advice: consumers may have a right of withdrawal, and local law comes first.',
  example: ['leafwright cancel harbour-house --who client', 'reckons what is due, paid and to be returned'],
  run: async (given, terminal) => (await import('./change/cancel.ts')).runCancel(given, terminal),
};

/** In the order in which a maker meets them. Each is loaded when it runs. */
export const commandGroups: readonly CommandGroup[] = [
  { title: 'Make a proposal', commands: [newCommand, checkCommand, previewCommand, figuresCommand, buildCommand] },
  {
    title: 'Until it is agreed',
    commands: [
      statusCommand,
      noteCommand,
      issueCommand,
      recordCommand,
      reviseCommand,
      sampleCommand,
      confirmCommand,
      scopeCommand,
      lostCommand,
    ],
  },
  {
    title: 'From the yes to the delivery',
    commands: [
      requestCommand,
      payCommand,
      statementCommand,
      stageCommand,
      measureCommand,
      hoursCommand,
      usedCommand,
      changeCommand,
      cancelCommand,
    ],
  },
  {
    title: 'The table and after',
    commands: [deliveryNoteCommand, handOverCommand, careCommand, serviceCommand, claimCommand, lessonsCommand],
  },
  { title: 'Proof', commands: [verifyCommand, attachCommand, keyCommand, eraseCommand] },
];

export const commands: readonly Command[] = commandGroups.flatMap((group) => group.commands);
