import type { CodeEntry } from './entry.ts';

/** Codes of the commands that hand a table over. */
export const handOverCodes: Readonly<Record<`cli/${string}`, CodeEntry>> = {
  'cli/hand-over-no-size': {
    title: 'the ordered table has no such size',
    explain: 'Sizes of the finished table are named by their path in the table as it was ordered: top.length, height, base.legs.size.',
  },
  'cli/hand-over-wider': {
    title: 'a tolerance is wider than the one that was agreed',
    explain: 'A sheet can hold a table to less than the agreed terms allow, never to more. A larger difference needs a yes.',
  },
  'cli/hand-over-no-finish': {
    title: 'the finish is not in the library',
    explain:
      'The care of a table is composed from its finish. Its entry in templates/finishes.yaml says how long it cures and what it stands.',
  },
  'cli/hand-over-usual-tolerance': {
    title: 'sizes are held against tolerances of common practice',
    explain:
      'The agreed terms state no amount for them that can be measured by: 3 mm for the plan, the height and places of parts, 1 mm for thickness and sections.',
  },
  'cli/service-before': {
    title: 'a service comes after the hand-over',
    explain: 'Work before the table stood with the client belongs to its making.',
  },
  'cli/service-no-defect': {
    title: 'the hand-over lists no such defect',
    explain: 'Defects are numbered from 1 in the order in which the hand-over lists them; status shows those that are open.',
  },
  'cli/service-done': {
    title: 'a defect was put right before',
    explain: 'It is recorded once more all the same: something may come back.',
  },
  'cli/hours-below': {
    title: 'more hours would be taken back than were written down',
    explain: '--back corrects what was written down; the sum of an operation can not fall below nought.',
  },
  'cli/rates-not-own': {
    title: 'shop rates of the program are not written into',
    explain: 'Rates that finished tables speak for go into a file of your own.',
  },
  'cli/rates-by-hand': {
    title: 'the shop rates can not be edited in place',
    explain: 'The file uses something, such as an alias, by which the edit would change something else as well.',
  },
  'cli/not-delivered': {
    title: 'a table that was not handed over has no papers yet',
    explain: 'Care, label and papers are made from the record of the hand-over: its days, its finish, what was built.',
  },
  'cli/label-too-long': {
    title: 'a label has no room for its words or its address',
    explain: 'The letters of a label are no smaller than can be read under a table, and its code no finer than can be scanned.',
  },
  'cli/hand-over-not-read': {
    title: 'what was ordered can not be read',
    explain: 'A sheet is held against the table as it was frozen with the revision that was ordered. Files of it were touched or erased.',
  },
  'cli/hand-over-no-file': {
    title: 'a file that the sheet names can not be kept',
    explain: "Photographs and the signed paper lie below the proposal's folder and are copied beside the record, up to 25 MB each.",
  },
  'cli/photograph-as-it-is': {
    title: 'a photograph is kept with all that its camera wrote into it',
    explain:
      'From JPEG, PNG and WebP the place, the day and the device are left out, and no picture element is touched. Other formats, HEIC and TIFF among them, are kept whole in the workshop and are never published.',
  },
  'cli/hand-over-no-mass': {
    title: 'the mass on the sheet can not be that of the table',
    explain:
      'How many hands lift a table follows from its mass. More than twice the reckoned one, or less than half of it, is a slip of the unit or of the point.',
  },
  'cli/hand-over-other-mass': {
    title: 'the table weighs much else than it was reckoned to',
    explain:
      'The density of a wood spreads by about a tenth of its mean from board to board (Wood Handbook, 2010, Table 5-6). Beyond that look for another reason: the wood, the steel, the scale.',
  },
  'cli/claim-before': {
    title: 'the claim comes before what it is a claim of',
    explain: 'A claim starts from the hand-over, is looked at after it was opened, and settled after that.',
  },
  'cli/claim-none': {
    title: 'there is no such claim',
    explain: 'A claim is named by the number of the entry that opened it.',
  },
  'cli/claim-settled': {
    title: 'the claim is settled',
    explain: 'What was decided of a claim stands. What comes up anew is opened anew.',
  },
  'cli/claim-unseen': {
    title: 'the claim is settled, and nobody is on record as having looked at the table',
    explain: 'What was seen, and in which air, is what a decision is held against later.',
  },
  'cli/paper-stays': {
    title: "the signed paper is not among the client's papers",
    explain:
      'A PDF, and a JPEG, PNG or WebP without place and device, go out. Another format, or a PDF with a photograph that tells of its camera, stays in the workshop.',
  },
  'cli/hand-over-to-come': {
    title: 'the delivery is still to come',
    explain: 'A record holds what has happened. Draft the sheet beforehand and record it once the table is there.',
  },
  'cli/hand-over-too-early': {
    title: 'the table was delivered before it was ordered',
    explain: 'An order begins with its confirmation and first instalment; one of the two days is mistyped.',
  },
  'cli/hand-over-other-day': {
    title: 'sheet and record have another day for the last coat',
    explain: 'Light use, full cure and the first refresh are counted from it, so it should be the right one.',
  },
  'cli/hand-over-piece-taken': {
    title: 'another table has this piece number',
    explain: 'The number under the top leads to the care of one table, for as long as it lasts.',
  },
  'cli/hand-over-other-piece': {
    title: 'the delivery that failed was of another piece number',
    explain: 'It is the same table, so its number should be the same; the one in the sheet is recorded.',
  },
  'cli/hand-over-nobody': {
    title: 'who accepted the table is nobody who decides',
    explain: 'by: is the id of somebody who decides in this proposal. Anybody else is named in words, which can be erased.',
  },
  'cli/hand-over-no-paper': {
    title: 'it was signed for, and no paper of it is kept',
    explain: 'A signature is worth what can be shown of it. leafwright attach --what paper-signature adds the scan later.',
  },
  'cli/hand-over-no-yes': {
    title: "an entry is taken for a yes and is nobody's",
    explain: 'An answer, or words of somebody who decides that were noted, can be a yes. The maker answers for what they say.',
  },
  'cli/measured-unusual': {
    title: 'what was measured is unusual',
    explain: 'Timber for heated rooms is worked at 5 to 16 %, air at 25 to 75 % (common practice). It is recorded as it was typed.',
  },
  'cli/measured-uneven': {
    title: 'boards of one glue-up differ in moisture',
    explain: 'The wetter board shrinks beside the drier one, and the joint is felt (common practice: at most 2 points).',
  },
  'cli/measured-late': {
    title: 'the table was handed over already',
    explain: 'The baseline is what the hand-over holds. What is measured later is kept beside it and does not change it.',
  },
  'cli/stage-hand-over': {
    title: 'a delivery is recorded by its hand-over',
    explain:
      'The hand-over holds piece number, finish, sizes and how the table was accepted; care and papers come from it. A bare stage has none of them.',
  },
  'cli/stage-handed-over': {
    title: 'the table was handed over, and its work is done',
    explain: 'No stage of the work follows a hand-over. What is done at the table later is a service.',
  },
  'cli/hand-over-change-waits': {
    title: 'a change to the order waits for its first payment',
    explain: 'Until it is paid the order before it stands, and sizes and finish are held against that one.',
  },
};
