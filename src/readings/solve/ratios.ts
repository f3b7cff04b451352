import { luminanceFromSrgb, ratioFromStops, stopsBetween } from '../../photometry'
import { setBackdrop } from '../../sitting'
import type { Stage } from '../stage'
import { figure, lengthPhrase, signed } from '../words'
import { atDials, type Dials, dialsNow } from './dials'
import { refusal, withDials } from './exposure'
import { byFactor } from './factor'
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

const fillsOf = (stage: Stage): readonly string[] => withRole(stage, 'fill', dialIds(stage))

function noFill(stage: Stage): Answer | null {
  if (stage.key?.role === 'fill') return refusal('only the fill is on: there is no key to hold it against.')
  if (fillsOf(stage).length > 0) return null
  const steady = stage.sitting.sources.find(({ role, on }) => role === 'fill' && on)
  if (steady)
    return refusal(
      `the fill, ${steady.letter}, is daylight and has no dial: change the shutter, flag or curtain it, or give a lamp the role fill.`,
    )
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
  if (!(total(key) > 0 && total(fill) > 0)) return refusal('key or fill does not reach the near cheek.')
  const under = (dials: Dials): number => stopsBetween(withDials(stage, fill, dials), withDials(stage, key, dials))
  return byFactor(stage, {
    ids,
    factorAt: (dials) => ratioFromStops(under(dials) - stops),
    words: `fill ${figure(stops, 1)} stops under key`,
    reads: under,
  })
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

/** x at which two sums of lights, some of both times x, are as r: (a0 + a1·x)/(b0 + b1·x) = r. null: no x over 0. */
function factorFor(
  stage: Stage,
  ids: readonly string[],
  r: number,
  [over, under]: readonly [BySource, BySource],
  dials: Dials,
): number | null {
  const [a, b] = [over, under].map((lights) => split(atDials(stage, lights, dials), ids)) as [Split, Split]
  const x = (r * b[0] - a[0]) / (a[1] - r * b[1])
  return x > 0 && Number.isFinite(x) ? x : null
}

/** Of the others; of the ones named. */
type Split = readonly [number, number]

const split = (lights: BySource, ids: readonly string[]): Split => {
  const part = sumOver(lights, ids)
  return [total(lights) - part, part]
}

/** From the near to the far cheek, everything on, by the fill. */
export function solveCheeks(stage: Stage, stops: number): Answer {
  const reason = noFill(stage)
  if (reason) return reason
  const ids = fillsOf(stage)
  const { near, far } = cheekLights(stage)
  const factorAt = (dials: Dials) => factorFor(stage, ids, ratioFromStops(-stops), [far, near], dials)
  if (factorAt(dialsNow(stage)) === null) {
    const [n, f] = [split(near, ids), split(far, ids)]
    const least = stopsBetween(n[0], f[0])
    const most = stopsBetween(n[1], f[1])
    return refusal(
      `without fill the far cheek is ${figure(-least, 1)} stops under the near one, with fill alone ${figure(-most, 1)}: ${figure(stops, 1)} lies outside. Move the fill, or flag the far side.`,
    )
  }
  return byFactor(stage, {
    ids,
    factorAt,
    words: `far cheek ${figure(stops, 1)} stops under near`,
    reads: (dials) => stopsBetween(withDials(stage, far, dials), withDials(stage, near, dials)),
  })
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
  const factorAt = (dials: Dials) => factorFor(stage, ids, ratioFromStops(stops), [paper, face], dials)
  if (factorAt(dialsNow(stage)) === null) {
    const spill = stopsBetween(split(face, ids)[0], split(paper, ids)[0])
    return refusal(
      spill >= stops
        ? `what the other sources spill lays the backdrop at ${signed(spill)} stops already: flag or grid them, or bring sitter and key forward.`
        : 'light for the backdrop falls as much on the face: flag it off the sitter.',
    )
  }
  return byFactor(stage, {
    ids,
    factorAt,
    words,
    reads: (dials) => stopsBetween(withDials(stage, face, dials), withDials(stage, paper, dials)),
  })
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
  if (far < BACK_M[0])
    return refusal(
      `the room leaves ${lengthPhrase(Math.max(0, far), 'metres')} behind the sitter: too little to hang the backdrop elsewhere.`,
    )
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
  const hair: BySource = new Map([[id, crownLight(stage, id)]])
  const face = faceLights(stage)
  if (!(total(hair) > 0)) return refusal('the hair light does not reach the crown.')
  // hair·x / (rest + own·x) = 2^stops: what of it falls on the face counts there.
  const factorAt = (dials: Dials) => factorFor(stage, [id], ratioFromStops(stops), [hair, face], dials)
  if (factorAt(dialsNow(stage)) === null)
    return refusal('the hair light falls on the face as much as on the hair: turn it, or flag it.')
  const which =
    ids.length > 1 ? ` ${stage.sitting.sources.find((source) => source.id === id)!.letter} of ${ids.length}` : ''
  return byFactor(stage, {
    ids: [id],
    factorAt,
    words: `hair light${which} ${signed(stops)} stops against the face`,
    reads: (dials) => stopsBetween(withDials(stage, face, dials), withDials(stage, hair, dials)),
  })
}
