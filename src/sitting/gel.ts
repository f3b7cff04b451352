import { kelvinBehindGel, LAMP_RANGE_K } from '../photometry'
import { type Problem, shown } from './problems'
import type { Head } from './types'

/** Least share that a coloured gel lets through in its clearest band: a darker one is no gel. */
const LEAST_CLEAR = 0.01

/** S19: what is wrong with the gels before a head. path: of the head. */
export function problemsOfGels(head: Head, path: string): readonly Problem[] {
  const { colourTemperatureK, gelMired = 0, gelColour } = head
  const kelvin = kelvinBehindGel(colourTemperatureK, gelMired)
  const [least, most] = LAMP_RANGE_K
  const isWithin = gelMired === 0 || (kelvin >= least && kelvin <= most)
  const shift: Problem = {
    rule: 'S19',
    path: `${path}.gelMired`,
    expected: `a shift that leaves ${colourTemperatureK} K between ${least} and ${most} K`,
    got: `${shown(gelMired)} mired${kelvin > 0 && Number.isFinite(kelvin) ? `, which makes ${Math.round(kelvin)} K` : ''}`,
    advice: 'Take a weaker gel, or another lamp.',
  }
  const dark: Problem = {
    rule: 'S19',
    path: `${path}.gelColour`,
    expected: `at least ${LEAST_CLEAR} in one of red, green, blue`,
    got: shown(gelColour),
    advice: 'Switch the source off, or take a clearer gel.',
  }
  return [...(isWithin ? [] : [shift]), ...(gelColour && Math.max(...gelColour) < LEAST_CLEAR ? [dark] : [])]
}
