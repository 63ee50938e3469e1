import type { CodeEntry } from './entry.ts';

/** Codes of tipping, movement, fit and wishes. */
export const assessCodes: Readonly<Record<`assess/${string}`, CodeEntry>> = {
  'assess/falls-by-itself': {
    title: 'the table falls over by itself: its weight acts outside its feet',
    explain:
      'The centre of gravity of all parts must lie inside the outline of the feet. A state with a leaf out or a part taken away is looked at like the table itself.',
  },
  'assess/below-least': {
    title: 'the table tips too easily for its use to be offered',
    explain:
      "A screening check of the maker's gives a safety factor below its least value. A design on offer is refused; one with offered: false is warned about. The checks and their loads are in templates/load-cases.yaml; they are calculations on a drawing and no standard's test.",
  },
  'assess/below-wanted': {
    title: 'the table tips more easily than the screening check wants',
    explain: 'The safety factor lies between the least and the wanted value of the check: widen the base, add weight, or tell the client.',
  },
  'assess/loose-top': {
    title: 'the top lies loose on its base: it can tip, slide or be lifted off by itself',
    explain:
      'The tipping loads count the weight of the top alone over what carries it, besides the whole table. Nothing is said about sliding: say in writing how the top is held.',
  },
  'assess/top-held-fast': {
    title: 'the top is fixed rigidly across its grain and will split or bow',
    explain:
      'A solid top changes its width with the seasons. Fixed with slots, buttons or figure-eights it can; screwed, doweled or glued fast across the grain it can not (common practice: 1 mm is taken up).',
  },
  'assess/cross-grain-joint': {
    title: 'a wide part is held fast across its grain and will split or open the joint',
    explain:
      'Long grain that is glued or screwed to a part running across it is held while it wants to move (common practice: 2 mm is taken up, 3 mm behind tenons or dowels). Glue the middle only, divide wide tenons, let the rest slide.',
  },
  'assess/end-grain-glue': {
    title: 'end grain is glued without a tenon and can not be relied on',
    explain:
      'Butt joints of end grain reach about a quarter of the strength of the wood at best (Wood Handbook, FPL-GTR-190, ch. 10). Use a tenon, a loose tenon or dowels.',
  },
  'assess/flat-sawn-over-heating': {
    title: 'a wide flat-sawn top over underfloor heating dries from below, cups and may open',
    explain:
      'Quarter-sawn or narrow boards move about half as much. Agree a limit for the temperature of the floor in writing (common practice).',
  },
  'assess/moisture-beyond-range': {
    title: 'the room is drier or damper than the equation for seasonal movement covers',
    explain:
      'The coefficients of Wood Handbook Table 13-5 hold from 6 to 14 % moisture. Beyond, Eq. 13-3 is used where the wood has a published shrinkage; this wood has none.',
  },
  'assess/stands-twice': {
    title: 'the free space on two opposite sides and the table do not add up to the room',
    explain:
      'Say how far the table stands from a wall on one of two opposite sides; the other follows from the room. Where both are written, the left and the front are taken.',
  },
  'assess/room-too-small': {
    title: 'the table does not fit the room',
    explain: 'Between the edge of the table and a wall, or something that stands out from it, there is less than nothing.',
  },
  'assess/way-in-blocked': {
    title: 'a piece of the table does not pass on its way in',
    explain: 'A single part, carried end on, is larger than a door or hatch. Knock-down joints make smaller pieces.',
  },
  'assess/way-in-not-proven': {
    title: 'it is not proven that every piece passes on its way in',
    explain:
      'The box around the piece does not pass by calculation; legs may still be wound through. Carry a template of the size through before you promise anything.',
  },
  'assess/heavy-piece': {
    title: 'a piece is too heavy for two people',
    explain: 'Up to 25 kg for one, 50 kg for two (common practice). Follow the lifting rules of your country.',
  },
};
