/**
 * Range of a seasonal change in mm. Boards sold as flat-sawn lie between flat and half-way to quarter, those sold as
 * quarter-sawn between quarter and half-way to flat, so the computed change is one end of the range.
 * @source common practice
 */
export function movementRangeMm(
  changeMm: number,
  sawn: 'flat' | 'quarter',
  wood: { readonly changeRadial: number; readonly changeTangential: number },
): { readonly lowMm: number; readonly highMm: number } {
  const halfWay = (wood.changeRadial + wood.changeTangential) / 2;
  return sawn === 'flat'
    ? { lowMm: (changeMm * halfWay) / wood.changeTangential, highMm: changeMm }
    : { lowMm: changeMm, highMm: (changeMm * halfWay) / wood.changeRadial };
}
