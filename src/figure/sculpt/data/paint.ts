/** Paint as factors on the part's base reflectance, linear, per band. */
export type Tint = readonly [number, number, number]

export const LIPS: Tint = [0.74, 0.45, 0.48]
/** Skin seen between the hairs of a brow. */
export const BROW: Tint = [0.6, 0.56, 0.54]
export const LASHES: Tint = [0.1, 0.09, 0.09]
export const CARUNCLE: Tint = [0.97, 0.7, 0.68]
/** Between the caruncle and the fold before it, and deep in both corners, where skin turns in. */
export const CORNER_DEEP: Tint = [0.7, 0.46, 0.43]
/** Of the moist corners of an eye, in the shade of both lids, as the fold beside them: laid over their red. */
export const CORNER_MOIST: Tint = [0.72, 0.78, 0.83]
/** Thin, blood-filled skin: cheeks, nose tip, ears, about the mouth. Blood takes most of the green (absorption of haemoglobin at 540 to 580 nm). */
export const FLUSH: Tint = [0.97, 0.8, 0.81]
/** Under the eyes, where veins show through thin skin. */
export const SHADE: Tint = [0.86, 0.83, 0.88]
/** Where there is less blood and more fat: forehead, temples, chin's sides. */
export const SALLOW: Tint = [0.99, 0.97, 0.89]
/** Pigment in single spots and patches. */
export const SPOT: Tint = [0.86, 0.74, 0.66]
/** Deep in a nostril, and in the hollows of an ear, where what light comes in is reddened from wall to wall. */
export const NOSTRIL: Tint = [0.12, 0.072, 0.066]
export const EAR_HOLLOW: Tint = [0.6, 0.43, 0.4]
/** Deep in the line of the mouth. */
export const BETWEEN_LIPS: Tint = [0.42, 0.34, 0.33]
/** The lower lid's edge, moist and thin, where it meets the ball. */
export const LID_RIM: Tint = [0.47, 0.39, 0.385]
/** Skin seen between the roots of the hair. */
export const SCALP: Tint = [0.4, 0.36, 0.34]
/** Centre line of a brow: x, y, half-width, mm. */
export const BROW_STROKE: readonly (readonly [number, number, number])[] = [
  [11.2, 16.4, 3],
  [15, 18.8, 4],
  [20, 21.2, 4.2],
  [30, 24.6, 3.6],
  [40, 24.6, 2.6],
  [47, 21.4, 1.9],
  [52, 17.6, 1.2],
]

/** Eye, relative to the sclera. */
export const PUPIL: Tint = [0.015, 0.016, 0.017]
export const IRIS: Tint = [0.19, 0.12, 0.075]
export const IRIS_FLECK: Tint = [0.09, 0.06, 0.03]
export const LIMBAL_RING: Tint = [0.1, 0.085, 0.075]
export const SCLERA_CORNER: Tint = [0.98, 0.93, 0.92]
export const WHITE: Tint = [1, 1, 1]
