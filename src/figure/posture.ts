import { childhood, type FigureShape } from './shape/fields'

export const POSTURES = ['seated', 'standing', 'in a wheelchair'] as const
export type Posture = (typeof POSTURES)[number]

/**
 * Eyes over the seat and over the ground, metres; women and men: means of ANSUR II 2012 (eye height sitting; stature less the eye
 * below the vertex), with shoes of 25 mm when standing (common practice, no source). Seven years: from memory, Snyder 1977.
 */
const EYES = {
  overSeat: { women: 0.748, men: 0.805, seven: 0.55 },
  overGround: { women: 1.544, men: 1.667, seven: 1.13 },
} as const

/**
 * The seat over the ground, metres. A chair: the lower end of what accessibility standards ask of seats (430 to 485 mm, ADA-ABA). A
 * manual wheelchair: mean with somebody in it (Anthropometry of Wheeled Mobility project, final report, 2010, §4.3.2).
 */
const SEATS = { seated: 0.43, 'in a wheelchair': 0.495 } as const

/** How high the eyes of such a person are, to the centimetre, metres. */
export function eyeHeightOf(posture: Posture, shape: Pick<FigureShape, 'masculinity' | 'ageYears'>): number {
  const { women, men, seven } = EYES[posture === 'standing' ? 'overGround' : 'overSeat']
  const grown = (women + men) / 2 + (shape.masculinity * (men - women)) / 2
  const eyes = grown + childhood(shape.ageYears) * (seven - grown)
  return Math.round(100 * (eyes + (posture === 'standing' ? 0 : SEATS[posture]))) / 100
}

/** Seats differ by as much either way, metres. */
const ALIKE_M = 0.021

/** The posture that these eyes tell; null: none of them. */
export const postureOf = (eyeHeightM: number, shape: Pick<FigureShape, 'masculinity' | 'ageYears'>): Posture | null =>
  POSTURES.find((posture) => Math.abs(eyeHeightOf(posture, shape) - eyeHeightM) < ALIKE_M) ?? null
