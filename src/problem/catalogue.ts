import { assessCodes } from './codes/assess.ts';
import { careCodes } from './codes/care.ts';
import { changeCodes } from './codes/change.ts';
import { cliCodes } from './codes/cli.ts';
import { clientCodes } from './codes/client.ts';
import { designCodes } from './codes/design.ts';
import { drawCodes } from './codes/draw.ts';
import type { CodeEntry } from './codes/entry.ts';
import { handOverCodes } from './codes/hand-over.ts';
import { priceCodes } from './codes/price.ts';
import { readCodes } from './codes/read.ts';
import { recordCodes } from './codes/record.ts';
import { recordCommandCodes } from './codes/record-commands.ts';
import { replyCodes } from './codes/reply.ts';
import { signCodes } from './codes/sign.ts';
import { specCodes } from './codes/spec.ts';
import { takeoffCodes } from './codes/takeoff.ts';
import { writeCodes } from './codes/write.ts';

/** Every published code with its title and explanation, by room in the order of the flow; a code never changes once published. */
export const CATALOGUE: Readonly<Record<string, CodeEntry>> = {
  ...readCodes,
  ...specCodes,
  ...designCodes,
  ...assessCodes,
  ...takeoffCodes,
  ...priceCodes,
  ...drawCodes,
  ...clientCodes,
  ...careCodes,
  ...writeCodes,
  ...signCodes,
  ...recordCodes,
  ...replyCodes,
  ...cliCodes,
  ...recordCommandCodes,
  ...changeCodes,
  ...handOverCodes,
};
