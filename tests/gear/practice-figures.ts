/** What working photographers report of a kind. Common practice, no source: computed figures are judged beside them, not by them. */
export interface Practice {
  /** Stops under the 65° dish at the same distance; makers and books mix taped distance and unmoved stand. */
  readonly lossStops: readonly [number, number]
  /** Full angle at half power, degrees. */
  readonly spreadDeg: readonly [number, number]
}

const PRACTICE: Readonly<Record<string, Practice>> = {
  dish: { lossStops: [0, 0], spreadDeg: [55, 70] },
  'wide-dish': { lossStops: [0.7, 1.2], spreadDeg: [100, 115] },
  'long-dish': { lossStops: [-1.5, -0.7], spreadDeg: [30, 50] },
  'bare-bulb': { lossStops: [1.5, 2.5], spreadDeg: [300, 360] },
  snoot: { lossStops: [1.5, 3], spreadDeg: [10, 25] },
  'silver-umbrella': { lossStops: [0.3, 1], spreadDeg: [80, 100] },
  'white-umbrella': { lossStops: [1.2, 2], spreadDeg: [100, 120] },
  'shoot-through-umbrella': { lossStops: [1.5, 2.3], spreadDeg: [140, 180] },
  'deep-umbrella': { lossStops: [-0.5, 0.5], spreadDeg: [50, 80] },
  'beauty-dish': { lossStops: [0.8, 1.4], spreadDeg: [70, 90] },
  softbox: { lossStops: [1.2, 1.8], spreadDeg: [90, 110] },
  octa: { lossStops: [2, 2.6], spreadDeg: [90, 120] },
  strip: { lossStops: [2.2, 3], spreadDeg: [80, 110] },
}

/** null: the trade has no figure for that kind. */
export const practiceOf = (kindId: string): Practice | null => PRACTICE[kindId] ?? null
