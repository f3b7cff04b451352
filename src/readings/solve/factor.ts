import type { Stage } from '../stage'
import { figure, signed } from '../words'
import { beyond, type Dials, dialsNow, dialWords, raised, setDials } from './dials'
import { goesWith, refusal, setTo, shownAs, stopsUntil, withDials } from './exposure'
import { faceLights } from './lights'
import type { Answer, SolveEdit } from './types'

/** Some sources to be changed together until a quantity has its value. */
export interface Wanted {
  readonly ids: readonly string[]
  readonly words: string
  /** The factor of light that these still lack with such dials; null: none gives it. */
  factorAt(dials: Dials): number | null
  /** The quantity with such dials. */
  reads(dials: Dials): number
}

/** Stops, against the last digits. */
const CLOSE = 1e-9
const MOST_TURNS = 200

/**
 * The dials that give it. Where powers give way, all of them are moved together so that the near cheek still reads the camera's
 * f-number: by turns, as daylight has no dial and shifts the quantity then. Where both are not to be had it is the quantity alone.
 */
function dialsFor(stage: Stage, { ids, factorAt }: Wanted): Dials | null {
  const factor = factorAt(dialsNow(stage))
  if (factor === null) return null
  const alone = raised(dialsNow(stage), Math.log2(factor), ids)
  if (stage.sitting.reExpose !== 'powers') return alone
  const face = faceLights(stage)
  let dials = alone
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const all = stopsUntil(stage, face, dials, stage.sitting.camera.fNumber)
    if (all === null) return alone
    dials = raised(dials, all, [...dials.keys()])
    const again = factorAt(dials)
    if (again === null) return alone
    if (Math.abs(Math.log2(again)) < CLOSE) return dials
    dials = raised(dials, Math.log2(again), ids)
  }
  return alone
}

/** The edits that give it, with what they give and what becomes of the exposure. */
export function byFactor(stage: Stage, wanted: Wanted): Answer {
  const { words, reads } = wanted
  const dials = dialsFor(stage, wanted)
  if (dials === null) throw new Error(`solve.byFactor: no factor for ${words}; the caller is to refuse it`)
  const [worst] = beyond(stage, dials)
  if (worst) {
    const { source, by } = worst
    const way = by < 0 ? 'strong: its lowest is' : 'weak: it lacks'
    const advice =
      by < 0
        ? 'more than that; move it away or put ND on'
        : 'at full; move it nearer, take a larger head, or ask for a lower f-number first'
    return refusal(
      `${source.letter} is too ${way} ${figure(Math.abs(by), 1)} ${Math.abs(by) === 1 ? 'stop' : 'stops'} ${advice}.`,
    )
  }
  const set = setDials(stage, dials)
  const powers = dialWords(stage, set.dials)
  const { edits, rest } = exposureWith(stage, set.dials)
  return {
    way: { words, edits: [...edits, ...set.edits], promised: reads(set.dials) },
    sentence: `${powers.join('; ')} gives ${words}.${rest}`,
    powers,
    others: [],
  }
}

/** What becomes of the exposure with such dials, in edits and in words. */
function exposureWith(stage: Stage, dials: Dials): { readonly edits: readonly SolveEdit[]; readonly rest: string } {
  const lights = faceLights(stage)
  const { camera, reExpose } = stage.sitting
  const gives = shownAs(stage, withDials(stage, lights, dials))
  if (reExpose === 'powers') {
    const fNumber = setTo(stage, camera.fNumber, gives)
    return fNumber === camera.fNumber
      ? { edits: [], rest: '' }
      : { edits: [{ kind: 'camera', fNumber }], rest: goesWith(fNumber) }
  }
  const change = 2 * Math.log2(gives / shownAs(stage, withDials(stage, lights, dialsNow(stage))))
  if (Math.abs(change) < 0.05) return { edits: [], rest: '' }
  const then = reExpose === 'f-number' ? 'and the f-number follows' : 'ask for the f-number again, or let it follow'
  return {
    edits: [],
    rest: ` The near cheek changes by ${signed(change)} stop${reExpose === 'f-number' ? ', ' : ': '}${then}.`,
  }
}
