import { asOfOption, type Command, jsonOption, workspaceOption } from './command.ts';

/* Commands that add one entry to a record or say how it stands. */

const common = { ...workspaceOption, ...asOfOption, ...jsonOption } as const;
const onOption = { on: { says: 'the day on which it happened (default: today)', value: 'DATE' } } as const;
const insistOption = { insist: { says: 'record it all the same, with your reason', value: '"WHY"' } } as const;

export const noteCommand: Command = {
  name: 'note',
  says: 'write down what was said, settle it, or list it',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    how: { says: 'visit, telephone, message, letter or other', value: 'WAY' },
    who: { says: 'who said it: an id or a name (default: you)', value: 'WHO' },
    ...onOption,
    wish: { says: 'the wish that it is about, or became', value: 'ID' },
    design: { says: 'the design that it is about', value: 'ID' },
    file: { says: 'take the words from a text file; - reads what is piped in', value: 'FILE' },
    settle: { says: 'the number of a note that was dealt with', value: 'N' },
    as: { says: 'what became of it: wish, draft, answered or dropped', value: 'FATE' },
    ...common,
  },
  more: 'The words lie apart from the chain, so that they can be erased. An open note holds up the next issue. Without words: the list, open notes first.',
  example: [
    'leafwright note harbour-house "No, not that" --how telephone --who maren',
    'adds an open note of today to proposals/harbour-house/decisions.jsonl',
  ],
  run: async (given, terminal) => (await import('./hearing/note.ts')).runNote(given, terminal),
};

export const sampleCommand: Command = {
  name: 'sample',
  says: 'record a yes or no to a sample or to boards',
  words: 'PROPOSAL MARK',
  count: [2, 2],
  options: {
    who: { says: 'who decided, by id', value: 'ID' },
    yes: { says: 'approved' },
    no: { says: 'refused' },
    of: { says: 'sample (default) or boards', value: 'WHAT' },
    keeps: { says: 'who keeps it: client, maker, half-each or nobody', value: 'WHO' },
    picture: { says: 'a photograph, copied beside the record', value: 'FILE' },
    words: { says: 'what was said with it', value: '"WORDS"' },
    ...onOption,
    ...common,
  },
  more: 'Each person who decides approves for themselves. Without an approved sample the scope says that it is subject to one.',
  example: ['leafwright sample harbour-house S-041 --who maren --yes', 'keeps that Maren approved sample S-041 and each has one half'],
  run: async (given, terminal) => (await import('./hearing/sample.ts')).runSample(given, terminal),
};

export const confirmCommand: Command = {
  name: 'confirm',
  says: 'confirm what was approved, and draft the message',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    hold: { says: 'the day until which price and place are held (default: 14 days)', value: 'DATE' },
    ...insistOption,
    ...common,
  },
  more: 'It is no order until the first instalment is in. The message lies in outbox/ of the proposal, to be read over and sent by you.',
  example: ['leafwright confirm harbour-house --hold 2027-04-30', 'adds the confirmation and writes outbox/r3-confirmation.txt and .eml'],
  run: async (given, terminal) => (await import('./order/confirm.ts')).runConfirm(given, terminal),
};

export const payCommand: Command = {
  name: 'pay',
  says: 'record money that came, or went back',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    instalment: { says: 'which one, from 1', value: 'N' },
    amount: { says: 'as 2539.20', value: 'AMOUNT' },
    ...onOption,
    back: { says: 'the money went back to the client' },
    ...insistOption,
    ...common,
  },
  more: 'The first instalment of what is confirmed makes the order, once it is in full.',
  example: [
    'leafwright pay harbour-house --instalment 1 --amount 2539.20 --on 2027-04-02',
    'keeps the payment and says what it makes of the order',
  ],
  run: async (given, terminal) => (await import('./order/pay.ts')).runPay(given, terminal),
};

export const stageCommand: Command = {
  name: 'stage',
  says: 'record how far the work is',
  words: 'PROPOSAL STAGE',
  count: [2, 2],
  options: { ...onOption, ...insistOption, ...common },
  more: 'STAGE is timber-bought, cut, glued or finished. A change to the order is priced from the stage reached. A delivery is recorded by hand-over; delivered and accepted alone need --insist. The balance is money: request asks for it, pay records it.',
  example: ['leafwright stage harbour-house glued', 'keeps that the table is glued up since today'],
  run: async (given, terminal) => (await import('./order/stage.ts')).runStage(given, terminal),
};

export const lostCommand: Command = {
  name: 'lost',
  says: 'record that the enquiry came to nothing, and why',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    reason: { says: 'price, time, design, elsewhere, silence, withdrawn or other', value: 'REASON' },
    file: { says: 'take the words from a text file; - reads what is piped in', value: 'FILE' },
    ...onOption,
    ...common,
  },
  more: 'Its pages then say that the proposal is closed. A revision that is issued later takes it up again.',
  example: ['leafwright lost harbour-house --reason price "More than they have"', 'closes the proposal'],
  run: async (given, terminal) => (await import('./order/lost.ts')).runLost(given, terminal),
};

export const attachCommand: Command = {
  name: 'attach',
  says: 'lay a file beside an entry of the record',
  words: 'PROPOSAL FILE',
  count: [2, 2],
  options: {
    to: { says: 'the entry that it belongs to', value: 'N' },
    what: { says: 'paper-signature, photograph, letter or other', value: 'WHAT' },
    who: { says: 'whose it is, by id', value: 'ID' },
    ...onOption,
    ...common,
  },
  more: 'The file is copied to records/files/ under a name without a person in it, and told by its digest.',
  example: ['leafwright attach harbour-house scan.pdf --to 14 --what paper-signature', 'copies the scan and adds its SHA-256 to the chain'],
  run: async (given, terminal) => (await import('./hearing/attach.ts')).runAttach(given, terminal),
};

export const eraseCommand: Command = {
  name: 'erase',
  says: "erase a person's data, and leave the proof sound",
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    person: { says: 'whose, by id', value: 'ID' },
    yes: { says: 'do it; without it only say what would go' },
    ...common,
  },
  more: 'What is erased can not be brought back. Working files, mail and copies elsewhere are yours to clear: it says where the name still stands.',
  example: ['leafwright erase harbour-house --person maren', 'says what would go and what remains, and erases nothing'],
  run: async (given, terminal) => (await import('./on-record/erase.ts')).runErase(given, terminal),
};

export const statusCommand: Command = {
  name: 'status',
  says: 'say how proposals stand and what comes next',
  words: '[PROPOSAL...]',
  count: [0, 1000],
  options: { ...common },
  more: 'Stage, who is waited for since when, validity, money open, open notes, next step; closed proposals below with the reason.',
  example: ['leafwright status', 'lists every proposal of the workspace'],
  run: async (given, terminal) => (await import('./on-record/status.ts')).runStatus(given, terminal),
};
