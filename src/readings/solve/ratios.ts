import { luminanceFromSrgb, ratioFromStops, stopsBetween } from '../../photometry'
import { setBackdrop } from '../../sitting'
import type { Stage } from '../stage'
import { figure, lengthPhrase, signed } from '../words'
import { beyond, type Dials, dialsNow, dialWords, raised, setDials } from './dials'
import { refusal, withDials } from './exposure'
import {
  type BySource,
  backdropLights,
  cheekLights,
  crownLight,
  dialIds,
  faceLights,
  keyAndFill,
  stageFor,
  total,
} from './lights'
import { type Answer, type SolveInput, TONES } from './types'

/** Sources with a role and a dial that are on. */
const withRole = ({ sitting }: Stage, role: string, ids: readonly string[]): readonly string[] =>
  sitting.sources.filter((source) => source.role === role && ids.includes(source.id)).map(({ id }) => id)

const sumOver = (lights: BySource, ids: readonly string[]): number =>
  ids.reduce((sum, id) => sum + (lights.get(id) ?? 0), 0)

/** The dials of some sources changed together by a factor of light; what it gives is told by `promised`. */
function byFactor(
  stage: Stage,
  ids: readonly string[],
  factor: number,
  words: string,
  promised: (dials: Dials) => number,
): Answer {
  if (!(factor > 0 && Number.isFinite(factor))) throw new Error(`solve.byFactor: a factor over 0, got ${factor}`)
  const wanted = raised(dialsNow(stage), Math.log2(factor), ids)
  const [worst] = beyond(stage, wanted)
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
  const { edits, dials } = setDials(stage, wanted)
  const powers = dialWords(stage, dials)
  return {
    way: { words, edits, promised: promised(dials) },
    sentence: `${powers.join('; ')} gives ${words}.${exposureRest(stage, dials)}`,
    powers,
    others: [],
  }
}

function exposureRest(stage: Stage, dials: Dials): string {
  const lights = faceLights(stage)
  const change = stopsBetween(total(lights), withDials(stage, lights, dials))
  return Math.abs(change) < 0.05
    ? ''
    : ` The near cheek changes by ${signed(change)} stop: ask for the f-number again, or let the exposure follow.`
}

const fillsOf = (stage: Stage): readonly string[] => withRole(stage, 'fill', dialIds(stage))

function noFill(stage: Stage): Answer | null {
  if (stage.key?.role === 'fill') return refusal('only the fill is on: there is no key to hold it against.')
  if (fillsOf(stage).length > 0) return null
  return stage.sitting.panels.some(({ kind }) => kind !== 'black')
    ? refusal('the fill is a panel: it has no power. Move it nearer or farther, or add a source with the role fill.')
    : refusal('no source has the role fill. Add one, or give one the role.')
}

/** key : fill = 2^stops, each alone at the near cheek of the key. */
export function solveKeyFill(stage: Stage, stops: number): Answer {
  const reason = noFill(stage)
  if (reason) return reason
  const ids = fillsOf(stage)
  const { key, fill } = keyAndFill(stage, ids)
  if (!(key > 0 && fill > 0)) return refusal('key or fill does not reach the near cheek.')
  const factor = (key * ratioFromStops(-stops)) / fill
  return byFactor(stage, ids, factor, `fill ${figure(stops, 1)} stops under key`, (dials) =>
    stopsBetween(fill * raisedBy(stage, dials, ids[0]!), key * raisedBy(stage, dials, stage.key!.id)),
  )
}

const raisedBy = (stage: Stage, dials: Dials, id: string): number => {
  const [before, after] = [dialsNow(stage).get(id), dials.get(id)]
  return before === undefined || after === undefined ? 1 : ratioFromStops(after - before)
}

/** (key + fill) : fill. Over 1: the fill is f = k/(ratio − 1). */
export function solveHighlightShadow(stage: Stage, ratio: number): Answer {
  if (!(ratio > 1))
    return refusal(`highlight : shadow is over 1 : 1, as the fill is in both; ${figure(ratio, 1)} was asked for.`)
  const answer = solveKeyFill(stage, Math.log2(ratio - 1))
  if (!answer.way) return answer
  const words = `highlight : shadow ${figure(ratio, 1)} : 1`
  return {
    ...answer,
    sentence: answer.sentence.replace(answer.way.words, words),
    way: { ...answer.way, words, promised: 1 + ratioFromStops(answer.way.promised) },
  }
}

/** Two sums that are linear in one factor x: (a0 + a1·x)/(b0 + b1·x) = r. null: no x over 0. */
const factorFor = (a: readonly [number, number], b: readonly [number, number], r: number): number | null => {
  const x = (r * b[0] - a[0]) / (a[1] - r * b[1])
  return x > 0 && Number.isFinite(x) ? x : null
}

const split = (lights: BySource, ids: readonly string[]): readonly [number, number] => {
  const part = sumOver(lights, ids)
  return [total(lights) - part, part]
}

/** From the near to the far cheek, everything on, by the fill. */
export function solveCheeks(stage: Stage, stops: number): Answer {
  const reason = noFill(stage)
  if (reason) return reason
  const ids = fillsOf(stage)
  const { near, far } = cheekLights(stage)
  const [n, f] = [split(near, ids), split(far, ids)]
  const factor = factorFor(f, n, ratioFromStops(-stops))
  if (factor === null) {
    const least = stopsBetween(n[0], f[0])
    const most = stopsBetween(n[1], f[1])
    return refusal(
      `without fill the far cheek is ${figure(-least, 1)} stops under the near one, with fill alone ${figure(-most, 1)}: ${figure(stops, 1)} lies outside. Move the fill, or flag the far side.`,
    )
  }
  return byFactor(stage, ids, factor, `far cheek ${figure(stops, 1)} stops under near`, (dials) =>
    stopsBetween(withDials(stage, far, dials), withDials(stage, near, dials)),
  )
}

/** The backdrop so many stops over the face (under it: negative), by the sources with that role. */
export function solveBackdrop(
  stage: Stage,
  stops: number,
  words = `backdrop ${signed(stops)} stops over the face`,
): Answer {
  const ids = withRole(stage, 'backdrop', dialIds(stage))
  const paper = backdropLights(stage)
  if (!paper) return refusal('the camera sees no backdrop.')
  const face = faceLights(stage)
  if (!(total(face) > 0)) return refusal('no light reaches the face: the backdrop has nothing to be held against.')
  const now = stopsBetween(total(face), total(paper))
  if (ids.length === 0)
    return refusal(
      `no source has the role backdrop, and what the others spill lays it ${signed(now)} stops over the face: light it, or move it.`,
    )
  const [p, f] = [split(paper, ids), split(face, ids)]
  const factor = factorFor(p, f, ratioFromStops(stops))
  if (factor === null) {
    const spill = stopsBetween(f[0], p[0])
    return refusal(
      spill >= stops
        ? `what the other sources spill lays the backdrop at ${signed(spill)} stops already: flag or grid them, or bring sitter and key forward.`
        : 'light for the backdrop falls as much on the face: flag it off the sitter.',
    )
  }
  return byFactor(stage, ids, factor, words, (dials) =>
    stopsBetween(withDials(stage, face, dials), withDials(stage, paper, dials)),
  )
}

/** Stops over the face at which the backdrop's own paper records as a tone: log₂(value/ρ). */
export const stopsForTone = ({ sitting }: Stage, tone: keyof typeof TONES): number =>
  stopsBetween(luminanceFromSrgb(sitting.backdrop!.reflectance), TONES[tone])

export function solveTone(stage: Stage, tone: keyof typeof TONES): Answer {
  if (!stage.sitting.backdrop) return refusal('no backdrop hangs behind the sitter.')
  if (!(luminanceFromSrgb(stage.sitting.backdrop.reflectance) > 0))
    return refusal('the paper sends no light back at all.')
  const stops = stopsForTone(stage, tone)
  return solveBackdrop(stage, stops, `${tone} backdrop, ${signed(stops)} stops over the face`)
}

const BACK_M: readonly [number, number] = [0.3, 15]

/** The same by hanging the backdrop nearer or farther: a search. */
export function solveToneByDistance(input: SolveInput, stage: Stage, tone: keyof typeof TONES): Answer {
  const { backdrop, room } = stage.sitting
  if (!backdrop) return refusal('no backdrop hangs behind the sitter.')
  const wanted = stopsForTone(stage, tone)
  const at = (distanceM: number): number | null => {
    const moved = setBackdrop(stage.sitting, { distanceM })
    const there = stageFor({ ...input, sitting: moved }, moved, input.again(moved))
    const paper = backdropLights(there)
    return paper ? stopsBetween(total(faceLights(there)), total(paper)) - wanted : null
  }
  const far = Math.min(BACK_M[1], room.outdoors ? BACK_M[1] : room.depthM / 2 - room.zM - 0.05)
  let [near, end] = [BACK_M[0], far] as [number, number]
  const [a, b] = [at(near), at(end)]
  if (a === null || b === null) return refusal('the camera sees no backdrop there.')
  if (!(a >= 0 && b <= 0))
    return refusal(
      `from ${lengthPhrase(near, 'metres')} to ${lengthPhrase(end, 'metres')} behind, the backdrop goes from ${signed(a + wanted)} to ${signed(b + wanted)} stops over the face; ${tone} needs ${signed(wanted)}: light it, flag it, or take other paper.`,
    )
  for (let i = 0; i < 24; i++) {
    const middle = Math.sqrt(near * end)
    const off = at(middle)
    if (off === null) return refusal('the camera sees no backdrop on the way.')
    if (Math.abs(off) < 0.008)
      return {
        way: {
          words: `backdrop ${lengthPhrase(middle, 'metres')} behind`,
          edits: [{ kind: 'backdrop', distanceM: middle }],
          promised: off + wanted,
        },
        sentence: `hung ${lengthPhrase(middle, 'metres')} behind, the paper is ${tone}: ${signed(wanted)} stops over the face.`,
        powers: [],
        others: [],
      }
    if (off > 0) near = middle
    else end = middle
  }
  return refusal(
    `the light on the backdrop jumps near ${lengthPhrase(near, 'metres')}: something throws its edge there.`,
  )
}

/** The hair light alone at the crown, disc to it, so many stops over the main reading (under it: negative). */
export function solveHair(stage: Stage, stops: number): Answer {
  const ids = withRole(stage, 'hair', dialIds(stage))
  const [id] = ids
  if (!id) return refusal('no source has the role hair. Add one, or give one the role.')
  const hair = crownLight(stage, id)
  const face = faceLights(stage)
  if (!(hair > 0)) return refusal('the hair light does not reach the crown.')
  const [rest, own] = split(face, [id])
  // hair·x / (rest + own·x) = 2^stops: what of it falls on the face counts there.
  const factor = factorFor([0, hair], [rest, own], ratioFromStops(stops))
  if (factor === null) return refusal('the hair light falls on the face as much as on the hair: turn it, or flag it.')
  return byFactor(stage, [id], factor, `hair light ${signed(stops)} stops against the face`, (dials) =>
    stopsBetween(withDials(stage, face, dials), hair * raisedBy(stage, dials, id)),
  )
}
