/**
 * Equilibrium moisture content of wood, percent, from the air's temperature (Celsius) and relative humidity (percent, 0 to 100).
 * @source USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010) and GTR-282 (2021), Eq. 4-5 with the Celsius coefficients
 */
export function equilibriumMoisturePercent(temperatureCelsius: number, humidityPercent: number): number {
  const t = temperatureCelsius;
  const w = 349 + 1.29 * t + 0.0135 * t * t;
  const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  return hailwoodHorrobin(w, k, k1, k2, humidityPercent);
}

function hailwoodHorrobin(w: number, k: number, k1: number, k2: number, humidityPercent: number): number {
  const kh = (k * humidityPercent) / 100;
  const water = k1 * kh + 2 * k1 * k2 * kh * kh;
  return (1800 / w) * (kh / (1 - kh) + water / (1 + k1 * kh + k1 * k2 * kh * kh));
}

/** Moisture range in which the straight line of Eq. 13-2 holds, percent. @source Wood Handbook, ch. 13 */
export const straightLinePercent = { low: 6, high: 14 } as const;

/**
 * Signed change of a dimension across the grain, mm, from the coefficient per 1 % of moisture; holds from 6 to 14 %.
 * @source Wood Handbook, FPL-GTR-190 (2010), Eq. 13-2, coefficients of Table 13-5
 */
export function changeByCoefficientMm(acrossMm: number, coefficient: number, fromPercent: number, toPercent: number): number {
  return acrossMm * coefficient * (toPercent - fromPercent);
}

/**
 * Signed change of a dimension across the grain, mm, from the total shrinkage green to oven-dry; neither moisture above 30 %.
 * @source Wood Handbook, FPL-GTR-190 (2010), Eq. 13-3 (layout from memory; it reproduces Table 13-5 at 10 %)
 */
export function changeByShrinkageMm(acrossMm: number, shrinkagePercent: number, fromPercent: number, toPercent: number): number {
  const fibreSaturationPercent = 30;
  return (
    (acrossMm * (toPercent - fromPercent)) / ((fibreSaturationPercent * 100) / shrinkagePercent - fibreSaturationPercent + fromPercent)
  );
}
