import type { CodeEntry } from './entry.ts';

/** Codes of revisions and their chain. */
export const recordCodes: Readonly<Record<`record/${string}`, CodeEntry>> = {
  'record/not-a-revision': {
    title: 'a revision is called r1, r2 and so on',
    explain: 'The number tells which came first; revision.id in proposal.yaml holds it.',
  },
  'record/already-issued': {
    title: 'this revision, or a later one, was issued already',
    explain: 'What a client has seen is frozen. Give the draft the next number and say in revision.changes what is new.',
  },
  'record/locked': {
    title: 'another run is writing the records of this proposal',
    explain: 'One run at a time may add to the records. A lock left by a run that has ended on this machine is taken over.',
  },
  'record/unfinished': {
    title: 'an issued folder has no line in the chain',
    explain:
      'A run was interrupted, or decisions.jsonl was cut. The next run adds the line where the folder is whole and follows the last entry.',
  },
  'record/chain-broken': {
    title: 'decisions.jsonl is not as it was written',
    explain: 'Each entry holds the digest of the one before, so a changed, moved or missing entry shows. Take the file back from a copy.',
  },
  'record/chain-cut': {
    title: 'decisions.jsonl ends in the middle of a line',
    explain: 'Entries are written whole, so the file was cut or edited by hand. Take it back from a copy.',
  },
  'record/not-anchored': {
    title: 'an issued folder is not the one that the chain holds',
    explain:
      'The folder agrees with itself but not with its entry: it was exchanged. Take folder and chain back from one and the same copy.',
  },
  'record/file-changed': {
    title: 'a file was changed after it was issued',
    explain: 'Its digest differs from the one in the list of the revision. What was issued is never edited; issue a new revision instead.',
  },
  'record/file-missing': {
    title: 'a file or folder that was issued is gone',
    explain: 'Take it back from a copy or from git.',
  },
  'record/file-added': {
    title: 'there is something beside what was issued',
    explain: 'A frozen folder holds what its lists name and link.json, nothing else. Move it elsewhere.',
  },
  'record/list-changed': {
    title: 'the list of what was issued is gone or changed',
    explain: 'content.json and files.json hold the digests that everything else is compared with. Take them back from a copy.',
  },
  'record/link-broken': {
    title: 'link.json holds no link',
    explain: 'Without it the revision has no address. Take it back from a copy.',
  },
  'record/link-twice': {
    title: 'two revisions have the same link',
    explain: 'A link is a key to one revision. A folder was probably copied by hand; take link.json back from a copy.',
  },
  'record/clock-back': {
    title: 'the clock stands before the last entry',
    explain: 'Entries are never dated before the one above them. The new one has the date of the last; set the clock of this machine.',
  },
  'record/cannot-write': {
    title: 'the records can not be written',
    explain:
      'The disk is full, can only be read, or is not yours to write to. Entries are written whole or not at all; the message says what stands.',
  },
  'record/merged': {
    title: 'two copies of the record were merged',
    explain:
      'Entries were added to two copies, and git put both into one file. Keep the lines of one copy, delete those of the other, and record again what they said.',
  },
  'record/kind-unknown': {
    title: 'an entry is of a kind that this program does not know',
    explain: 'A newer version of the program wrote it. Use that version or a later one.',
  },
  'record/entry-invalid': {
    title: 'an entry does not hold what belongs to its kind',
    explain: 'It fits into the chain and was not written by this program. Take decisions.jsonl back from a copy.',
  },
  'record/entry-astray': {
    title: 'an entry points to one that is not there or is of another kind',
    explain: 'Answers, confirmations and settled notes name earlier entries by number. Take decisions.jsonl back from a copy.',
  },
  'record/not-offered': {
    title: 'an entry names a choice that was not offered',
    explain: 'What is answered, asked or confirmed is a design with its options, at its total, of an issued revision with its fingerprint.',
  },
  'record/scan-missing': {
    title: 'an answer on paper has no scan beside it',
    explain: 'The run that recorded it ended before the scan was kept. The same command again adds the scan and nothing else.',
  },
  'record/nothing-to-erase': {
    title: 'the records hold nothing of this person',
    explain: 'Nothing sealed, attached or issued is left that names the person. Working files are yours to clear.',
  },
  'record/not-handed-over': {
    title: 'papers of a table are made after its hand-over',
    explain: 'An edition of the papers belongs to a hand-over, or to a service that changed the care.',
  },
  'record/hand-over-closed': {
    title: 'a proposal that is closed has nothing to hand over',
    explain: 'It was lost or cancelled. What was made of it is yours; a new revision opens it again.',
  },
  'record/hand-over-no-order': {
    title: 'there is no order to hand over',
    explain: 'A confirmation becomes the order with its first instalment. What was not ordered is not delivered.',
  },
  'record/hand-over-again': {
    title: 'the table was handed over already',
    explain: 'A delivery that failed is followed by another; one that did not is the baseline of every later claim, and there is one.',
  },
  'record/hand-over-can-not-be': {
    title: 'a hand-over contradicts itself',
    explain: 'It was accepted or it failed; the finish comes before the delivery, and defects are put right after it.',
  },
  'record/hand-over-unagreed': {
    title: 'something was built beyond its tolerance, and nobody has said yes to it',
    explain: 'The specification was agreed with its tolerances. What lies outside of them needs the yes of somebody who decides.',
  },
  'record/hand-over-other-finish': {
    title: 'the table bears another finish than was ordered, and nobody has said yes to it',
    explain:
      'A finish was chosen for how it looks and what it stands. Another one, even a better one, needs the yes of somebody who decides.',
  },
  'record/hand-over-balance': {
    title: 'money of the order is still open at the hand-over',
    explain: 'The table can be handed over all the same. Once it stands with the client, a balance is harder to ask for.',
  },
  'record/hand-over-bare': {
    title: 'what a later claim would be measured by is not all there',
    explain: 'Photographs, batch, moisture and humidity tell years later whether a crack came from the table or from the room.',
  },
  'record/signature-broken': {
    title: 'a signed file does not bear the signature that the record names',
    explain: 'The entry names the certificate by which the scope was signed; the file was exchanged, or the record was written anew.',
  },
};
