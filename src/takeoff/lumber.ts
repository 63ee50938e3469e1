/**
 * Cubic metres in one board foot: 144 cubic inches of 25.4 mm.
 *
 * @source definition of the board foot (1 in x 12 in x 12 in) and of the inch (25.4 mm exactly).
 */
export const BOARD_FOOT_M3 = 0.002359737216;

/** Board feet in a volume of m3. */
export function boardFeetOfM3(volumeM3: number): number {
  return volumeM3 / BOARD_FOOT_M3;
}

/**
 * Board feet of one rough board: thickness and width in inches, length in feet, nothing rounded.
 *
 * @source furniture-making text "Ordering lumber by the board foot": T x W x L / 12 with the length in feet.
 */
export function boardFeetOf(thicknessIn: number, widthIn: number, lengthFt: number): number {
  return (thicknessIn * widthIn * lengthFt) / 12;
}

/**
 * Surface measure of a hardwood board in whole square feet: width in inches with its fraction times the whole feet of the length,
 * over 12, to the nearest whole number. The length is cut back to the whole foot; a half goes up.
 *
 * @source NHLA measurement rule as quoted by a hardwood exporter's page on American lumber measurement; the half that goes up: from memory.
 */
export function surfaceMeasure(widthIn: number, lengthFt: number): number {
  return Math.floor((widthIn * Math.floor(lengthFt)) / 12 + 0.5);
}

/**
 * Board feet as a hardwood yard tallies one board: surface measure times nominal thickness; what is thinner than an inch counts as one.
 *
 * @source hardwood terminology page (board feet = surface measure x thickness), as NHLA.
 */
export function tallyBoardFeet(widthIn: number, lengthFt: number, thicknessIn: number): number {
  return surfaceMeasure(widthIn, lengthFt) * Math.max(1, thicknessIn);
}

/**
 * How many pieces of one size come out of a length of stock, each but the last followed by a saw cut. All in mm.
 *
 * @source n = floor((L + k) / (p + k)): the kerf-free problem with piece and stock lengthened by the kerf.
 */
export function piecesPerBar(stockMm: number, pieceMm: number, kerfMm: number): number {
  return Math.floor((stockMm + kerfMm) / (pieceMm + kerfMm));
}

/**
 * Gross quantity from a net one with an addition on the net: 35 % more, not 35 % lost. Same unit in and out.
 *
 * @source woodshop practice; an addition of 30 % on the net is a loss of 23.1 % of the gross.
 */
export function grossOf(net: number, additionPercent: number): number {
  return net * (1 + additionPercent / 100);
}

/** Share of the gross that is lost where so much is added on the net: 0.3 becomes 0.2308. */
export function lossOfGross(additionOnNet: number): number {
  return additionOnNet / (1 + additionOnNet);
}
