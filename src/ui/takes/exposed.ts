import type { Sitting } from '../../sitting'
import { quantities } from '../values'

/** One side of a comparison. */
interface Exposed {
  readonly name: string
  readonly sitting: Pick<Sitting, 'reExpose' | 'camera'>
}

/** Less is not seen, stops. */
const LEAST_STOPS = 0.05

/**
 * What of the difference between two pictures is exposure, as a sentence; null: they are exposed alike. By the meter, whether
 * the powers or the f-number gave way, every picture is equally exposed; at equal power f-number and ISO count.
 */
export function exposureNote(left: Exposed, right: Exposed): string | null {
  const [a, b] = [left, right].map(({ sitting }) => sitting.reExpose !== 'nothing')
  if (a && b) return null
  if (a !== b) return `Not exposed alike: ${left.name} ${ruleOf(a)}, ${right.name} ${ruleOf(b)}.`
  const [one, two] = [left.sitting.camera, right.sitting.camera]
  const stops = Math.log2(two.iso / one.iso) + 2 * Math.log2(one.fNumber / two.fNumber)
  if (Math.abs(stops) < LEAST_STOPS) return null
  const size = Math.abs(stops).toFixed(1)
  const words = `${size} ${size === '1.0' ? 'stop' : 'stops'}`
  return `Not exposed alike: ${left.name} at ${settings(one)}, ${right.name} at ${settings(two)}, ${words} apart.`
}

const ruleOf = (byMeter: boolean | undefined): string => (byMeter ? 'by the meter' : 'at equal power')

const settings = ({ fNumber, iso }: Sitting['camera']): string =>
  [quantities.fNumber.format(fNumber, 'metres'), quantities.iso.format(iso, 'metres')].join(', ')
