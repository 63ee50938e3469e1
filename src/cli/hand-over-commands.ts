import { asOfOption, type Command, jsonOption, workspaceOption } from './command.ts';

/* Commands of the hand-over, and what it is measured by. */

const common = { ...workspaceOption, ...asOfOption, ...jsonOption } as const;

export const measureCommand: Command = {
  name: 'measure',
  says: 'record what meter and hygrometer show',
  words: 'PROPOSAL WHAT PERCENT...',
  count: [3, 200],
  options: {
    at: { says: 'delivery-of-timber, glue-up, finish, delivery or later', value: 'WHEN' },
    on: { says: 'the day on which it was measured (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'WHAT is moisture, of each board in percent of dry mass, or humidity, of the air. The sheet of the hand-over takes it over.',
  example: [
    'leafwright measure harbour-house moisture 8.9 9.2 9.4 --at glue-up',
    'keeps the moisture of three boards as they are glued up',
  ],
  run: async (given, terminal) => (await import('./handing/measure.ts')).runMeasure(given, terminal),
};

export const handOverCommand: Command = {
  name: 'hand-over',
  says: 'hand the table over: draft its sheet, then record it',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    failed: { says: 'it failed: nobody-there, no-way-in, damaged, refused, weather or other', value: 'WHY' },
    on: { says: 'the day of a delivery that failed, or for the draft (default: today)', value: 'DATE' },
    piece: { says: 'the piece number (default: initials, year, next number)', value: 'NUMBER' },
    finished: { says: 'with --failed: the day of the last coat', value: 'DATE' },
    stored: { says: 'with --failed: the table is kept from that day' },
    'stored-until': { says: 'with --failed: the last day of storage', value: 'DATE' },
    ...common,
  },
  more: 'Without proposals/PROPOSAL/hand-over.yaml it writes that sheet and records nothing. Filled in, it is checked, recorded with its photographs, and the papers of the table are made. A difference beyond tolerance, or another finish, needs the number of the entry with a yes.',
  example: ['leafwright hand-over harbour-house', 'drafts proposals/harbour-house/hand-over.yaml; once that is filled in, records it'],
  run: async (given, terminal) => (await import('./handing/hand-over.ts')).runHandOver(given, terminal),
};

export const careCommand: Command = {
  name: 'care',
  says: 'make the papers of a table anew: its care, label and documents',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    again: { says: 'also where the newest edition says the same' },
    'renew-link': { says: 'a new care link: the old one, and the code on the label, lead nowhere' },
    ...common,
  },
  more: 'hand-over and service make them by themselves. Make them anew after a change to the rules of care or to what the maker is called, or where a run ended too soon. The link of the care stays the same, unless --renew-link gives it another: then the label is to be printed anew.',
  example: ['leafwright care harbour-house', 'freezes the next edition; build publishes it below the same links'],
  run: async (given, terminal) => (await import('./handing/care.ts')).runCare(given, terminal),
};

export const deliveryNoteCommand: Command = {
  name: 'delivery-note',
  says: 'make a delivery note, to be signed on paper',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    on: { says: 'the day of the delivery, also one still to come (default: today)', value: 'DATE' },
    page: { says: 'the page under whose name it stands (default: the first)', value: 'ID' },
    'refresh-kit': { says: 'a refresh kit is left with the table' },
    ...common,
  },
  more: 'It takes the sheet of the hand-over where that is filled in, and leaves room for a hand where something is not known. It shows no price and records nothing.',
  example: [
    'leafwright delivery-note harbour-house --on 2027-06-18 --refresh-kit',
    'writes outbox/delivery-note-2027-06-18.pdf, to be printed and signed',
  ],
  run: async (given, terminal) => (await import('./handing/delivery-note.ts')).runDeliveryNote(given, terminal),
};

export const serviceCommand: Command = {
  name: 'service',
  says: 'record a visit, a repair or a refinish of a table',
  words: 'PROPOSAL WHAT [WORDS]',
  count: [2, 3],
  options: {
    finish: { says: 'with refinish: what the table bears now, a key of the finishes', value: 'ID' },
    batch: { says: 'with refinish: the batch, as the tins say', value: 'TEXT' },
    defects: { says: 'defects of the hand-over that were put right, as 1,3', value: 'NUMBERS' },
    photograph: { says: 'a photograph of the work; more of them: attach', value: 'FILE' },
    on: { says: 'the day of it (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'WHAT is visit, repair or refinish. A refinish changes the care from that day on: the papers are made anew, below the same links.',
  example: ['leafwright service harbour-house visit "tightened the buttons, all well"', 'keeps the visit with the record of the table'],
  run: async (given, terminal) => (await import('./handing/service.ts')).runService(given, terminal),
};

export const hoursCommand: Command = {
  name: 'hours',
  says: 'write hours at the bench down',
  words: 'PROPOSAL OPERATION HOURS [WORDS]',
  count: [3, 4],
  options: {
    back: { says: 'take these hours back: too many were written down' },
    on: { says: 'the day of the work (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'OPERATION is one of the take-off, or unplanned.',
  example: ['leafwright hours harbour-house glue-up 5.5', 'adds five and a half hours to glue-up'],
  run: async (given, terminal) => (await import('./handing/work-log.ts')).runHours(given, terminal),
};

export const usedCommand: Command = {
  name: 'used',
  says: 'write timber down that was used, or is left',
  words: 'PROPOSAL',
  count: [1, 1],
  options: {
    wood: { says: 'the wood, a key of the woods', value: 'ID' },
    size: { says: 'length x width x thickness', value: 'SIZE' },
    boards: { says: 'how many boards of that size (default: 1)', value: 'COUNT' },
    moisture: { says: 'their moisture, in percent', value: 'PERCENT' },
    offcut: { says: 'they came back to the rack' },
    on: { says: 'the day of it (default: today)', value: 'DATE' },
    ...common,
  },
  example: ['leafwright used harbour-house --wood oak-european --size 2400x220x45', 'writes one board down as used'],
  run: async (given, terminal) => (await import('./handing/work-log.ts')).runUsed(given, terminal),
};

export const lessonsCommand: Command = {
  name: 'lessons',
  says: 'what the table was reckoned to take, and what it took',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    write: { says: 'write the proposed rates into the shop rates of the workspace' },
    on: { says: 'with words: the day of the lesson (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'With WORDS it keeps a lesson for the workshop. Rates are proposed from three tables on that were priced by the same rates.',
  example: ['leafwright lessons harbour-house', 'hours and timber beside the take-off, offcuts as stock, rates that past tables speak for'],
  run: async (given, terminal) => (await import('./handing/lessons.ts')).runLessons(given, terminal),
};

export const claimCommand: Command = {
  name: 'claim',
  says: 'a claim: what was recorded, what was found, what becomes of it',
  words: 'PROPOSAL [WORDS]',
  count: [1, 2],
  options: {
    about: { says: 'opens one: crack, warp, joint, finish, mark, fitting, size or other', value: 'WHAT' },
    who: { says: 'with --about: who complains, by id', value: 'ID' },
    name: { says: 'with --about: the name of somebody else who complains', value: 'NAME' },
    look: { says: 'the claim in that entry was looked at; WORDS are your own remark', value: 'ENTRY' },
    settle: { says: 'the claim in that entry is settled; WORDS say why, in the copy too', value: 'ENTRY' },
    as: { says: 'with --settle: covered, not-covered, goodwill or withdrawn', value: 'HOW' },
    humidity: { says: 'relative humidity beside the table now', value: 'PERCENT' },
    temperature: { says: 'temperature beside it', value: 'DEGREES' },
    moisture: { says: 'moisture of its boards now, as 6.4,6.8', value: 'PERCENTS' },
    width: { says: 'the top as it measures now, across its boards', value: 'LENGTH' },
    sizes: { says: 'other sizes now, as "height=744 mm,top.length=2098 mm"', value: 'SIZES' },
    photograph: { says: 'a photograph of it; more of them: attach', value: 'FILE' },
    sheet: { says: 'print the claim in that entry, for you and the visit', value: 'ENTRY' },
    copy: { says: 'print it for the client, without your remarks', value: 'ENTRY' },
    page: { says: 'with --sheet or --copy: the page under whose name it stands', value: 'ID' },
    on: { says: 'the day of it (default: today)', value: 'DATE' },
    ...common,
  },
  more: 'Without WORDS it shows the baseline of the hand-over, services since then and the agreed words, reckons what the top was to be expected to do in that air, and records nothing. It judges nothing: rights by law stand, and local law decides.',
  example: [
    'leafwright claim harbour-house "a gap at its end" --about crack',
    'opens a claim; its page and its sheet begin with what was recorded',
  ],
  run: async (given, terminal) => (await import('./handing/claim.ts')).runClaim(given, terminal),
};
