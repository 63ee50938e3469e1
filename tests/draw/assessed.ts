import type { Assessment } from '../../src/assess/index.ts';

/** Drawings do not read the assessment yet; an empty one keeps the call honest. */
export const assessment: Assessment = {
  massKg: 0,
  massOf: {},
  volumeOf: {},
  centreOfGravityMm: [0, 0, 0],
  supportPolygonMm: [],
  supportArcs: [],
  contacts: [],
  tipping: [],
  movement: [],
  open: { front: 0, side: 0 },
  fit: { clearancesMm: {}, clearHeightMm: 0, pieces: [], wayIn: [] },
  wishes: [],
  problems: [],
};
