import type { IndirectLight } from '../bounce'
import { luminanceFromSrgb } from '../photometry'
import { type Emitter, mirrorOf, type Rig, type RigSource } from '../rig'
import { distance, dot, normalize, pointToLocal, subtract, type Vec3 } from '../space'
import { BATCH, MAX_EMITTERS } from './layouts'
import { lensesSeen } from './lenses'
import { pointsInTurn } from './points-in-turn'
import type { Recombination } from './recombine'

/** A source as it counts in a layer: alone as it is, per 1 cd·s and in white; among others as it is shown. */
export interface Member {
  readonly source: RigSource
  /** Among the rig's sources. */
  readonly index: number
  /** cd·s. */
  readonly factor: number
  /** Luminance 1. */
  readonly rgb: Vec3
}

/** Several sources drawn as one, each weighed as it is shown: sixteen points light a whole picture. */
export interface Ensemble extends RigSource {
  readonly members: readonly Member[]
  /** Of each emitter what it brings to the first sitter, or to what it aims at: by what points are allotted. */
  readonly brightness: readonly number[]
}

export const isEnsemble = (source: RigSource): source is Ensemble => 'members' in source

/** Batches that count as early, where they are so many for a source alone: many share a batch's points, and each has had few for twice as long. */
export const earlyOf = (source: RigSource, alone: number): number => (isEnsemble(source) ? 2 * alone : alone)

export const membersOf = (source: RigSource): readonly Member[] =>
  isEnsemble(source) ? source.members : [{ source, index: 0, factor: 1, rgb: [1, 1, 1] }]

/** The member that each emitter of a layer's source belongs to. */
export const membersByEmitter = (source: RigSource): readonly Member[] =>
  membersOf(source).flatMap((member) => member.source.emitters.map(() => member))

/** Fewer sources are drawn one by one as quickly. */
const CROWD = 3
/** Gates that need a texture or a program of their own. */
const LONERS: readonly string[] = ['intensities', 'overcast']

/**
 * The sources that show as one; null: they are too few, or what stands in the set (glasses, a mirror) or shines on it (a measured
 * lamp, the sky, what burns on across a shutter's band) is drawn for a source at a time.
 */
export function ensembleOf(rig: Rig, { weights, dark }: Recombination): Ensemble | null {
  const members = rig.sources.flatMap((source, index): readonly Member[] => {
    const weight = weights.find(({ sourceId, on }) => on && sourceId === source.id)
    return weight && weight.factor > 0 ? [{ source, index, factor: weight.factor, rgb: weight.rgb }] : []
  })
  const emitters = members.flatMap(({ source }) => source.emitters)
  const isAlone = emitters.some(({ emission }) => LONERS.includes(emission.gate.kind))
  if (members.length < CROWD || emitters.length > MAX_EMITTERS || isAlone || dark || !isPlain(rig)) return null
  const sitter = rig.figures[0]?.posed.eyeMidpoint ?? null
  const brightness = members.flatMap(({ source, factor }) =>
    source.emitters.map((emitter) => factor * brightnessOf(emitter, source.aim, sitter)),
  )
  const [{ source }] = members
  return { ...source, id: 'all', on: true, colour: [1, 1, 1], gear: [], emitters, members, brightness }
}

const isPlain = (rig: Rig): boolean => mirrorOf(rig) === null && lensesSeen(rig).length === 0

/** Are sources and their weights, but for a common gain, what they were? Its points then stay where they are. */
export const mayGoOn = (ensemble: Ensemble, rig: Rig, how: Recombination): boolean =>
  gainOver(ensemble, how) !== null &&
  isPlain(rig) &&
  ensemble.members.every(
    ({ source, index }) => rig.sources[index]?.emitters === source.emitters && rig.sources[index].id === source.id,
  )

/** Is it the same light, but for a common gain? Then the gain, else null. */
export function gainOver({ members }: Ensemble, { weights, dark }: Recombination): number | null {
  const shown = weights.filter(({ on, factor }) => on && factor > 0)
  if (dark || shown.length !== members.length) return null
  const gains = members.map(({ source, factor, rgb }) => {
    const weight = shown.find(({ sourceId }) => sourceId === source.id)
    const isSame = weight?.rgb.every((value, band) => Math.abs(value - rgb[band]) < ALIKE)
    return weight && isSame ? weight.factor / factor : Number.NaN
  })
  return gains.every((gain) => Math.abs(gain / gains[0] - 1) < ALIKE) ? gains[0] : null
}
const ALIKE = 1e-6

/** What the sitter does not see of a lamp may light all that is behind it: it counts a quarter. */
const AIM_SHARE = 0.25

function brightnessOf(emitter: Emitter, aim: Vec3, sitter: Vec3 | null): number {
  const atAim = AIM_SHARE * irradianceAt(emitter, aim)
  return sitter ? Math.max(atAim, irradianceAt(emitter, sitter)) : atAim
}

const PLACES = [0.125, 0.375, 0.625, 0.875]

/** Roughly, from sixteen places of the lit face: 1/m² where it falls in squarely. */
function irradianceAt({ frame, emission }: Emitter, place: Vec3): number {
  const local = pointToLocal(frame, place)
  let sum = 0
  for (const u of PLACES)
    for (const v of PLACES) {
      const at = emission.at(u, v)
      const along = normalize(subtract(local, at.point))
      const cosine = dot(along, at.normal)
      if (cosine <= 0) continue
      const apartM = Math.max(distance(local, at.point), 0.05)
      sum += (emission.luminance(at, along) * cosine * at.areaM2) / (apartM * apartM * PLACES.length ** 2)
    }
  return sum
}

/**
 * Of so many points one to each emitter, even where that is more, then always twice as many to the one whose points bring most
 * each: Sobol points are even by powers of two.
 */
export function allot(brightness: readonly number[], total: number = BATCH): readonly number[] {
  const counts = brightness.map(() => 1)
  for (let left = total - counts.length; ; ) {
    const each = (i: number) => (counts[i] <= left ? brightness[i] / counts[i] : -1)
    const best = counts.reduce((most, _, i) => (each(i) > each(most) ? i : most), 0)
    if (counts.length === 0 || each(best) <= 0) return counts
    left -= counts[best]
    counts[best] *= 2
  }
}

export interface SharedLight extends IndirectLight {
  /** The points of each source. */
  readonly groups: readonly (readonly VirtualPoint[])[]
}

/** All that bounced, weighed; null: of no source it is known. */
export function bounceOfAll({ members }: Ensemble, lights: readonly IndirectLight[]): SharedLight | null {
  const known = members.flatMap((member) => {
    const light = lights.find(({ sourceId }) => sourceId === member.source.id)
    return light ? [{ light, gain: gainOf(member) }] : []
  })
  if (known.length === 0) return null
  const [{ light: first }] = known
  const fits = known.filter(({ light }) =>
    (['patches', 'vertices', 'eyes'] as const).every((name) => light[name].length === first[name].length),
  )
  const groups = fits.map(({ light, gain }) => light.points.map((point) => weighed(point, gain)))
  return {
    sourceId: 'all',
    patches: sumOf(fits.map(({ light, gain }) => ({ values: light.patches, gain }))),
    vertices: sumOf(fits.map(({ light, gain }) => ({ values: light.vertices, gain }))),
    leans: leansOf(fits),
    eyes: sumOf(fits.map(({ light, gain }) => ({ values: light.eyes, gain }))),
    points: groups.flat(),
    groups,
  }
}

/** Bounced light is in its source's own colour. */
const gainOf = ({ source: { colour }, factor, rgb }: Member): Vec3 => {
  const gain = (band: number) => (colour[band] > 0 ? (factor * rgb[band]) / colour[band] : 0)
  return [gain(0), gain(1), gain(2)]
}

type VirtualPoint = IndirectLight['points'][number]

const times = (a: Vec3, b: Vec3): Vec3 => [a[0] * b[0], a[1] * b[1], a[2] * b[2]]

const weighed = (point: VirtualPoint, gain: Vec3): VirtualPoint => ({
  ...point,
  diffuse: times(point.diffuse, gain),
  glossy: point.glossy.map(({ incident, strength }) => ({ incident, strength: times(strength, gain) })),
})

function sumOf(all: readonly { readonly values: Float32Array; readonly gain: Vec3 }[]): Float32Array {
  const sum = new Float32Array(all[0].values.length)
  for (const { values, gain } of all) for (let i = 0; i < sum.length; i++) sum[i] += gain[i % 3] * values[i]
  return sum
}

/** A lean is a share of the light: the sum's is the mean, weighed by luminance. */
function leansOf(all: readonly { readonly light: IndirectLight; readonly gain: Vec3 }[]): Float32Array {
  const leans = new Float32Array(all[0].light.leans.length)
  for (let v = 0; v < leans.length; v += 3) {
    let total = 0
    for (const { light, gain } of all) {
      const { vertices: l } = light
      const luminance = luminanceFromSrgb([gain[0] * l[v], gain[1] * l[v + 1], gain[2] * l[v + 2]])
      total += luminance
      for (let axis = 0; axis < 3; axis++) leans[v + axis] += luminance * light.leans[v + axis]
    }
    for (let axis = 0; axis < 3; axis++) leans[v + axis] = total > 0 ? leans[v + axis] / total : 0
  }
  return leans
}

export interface Drawn {
  readonly point: VirtualPoint
  /** For how many such points it stands. */
  readonly weight: number
}

/** So many of all sources' virtual points, most of those that send most; of each source all in a round of so many batches. */
export function pointsInTurns(
  groups: readonly (readonly VirtualPoint[])[],
  batch: number,
  total: number,
): readonly Drawn[] {
  const filled = groups.filter((points) => points.length > 0)
  const counts = allot(
    filled.map((points) => points.reduce((sum, point) => sum + powerOf(point), 0)),
    total,
  )
  return filled.flatMap((points, i) => {
    const some = pointsInTurn(points, batch, counts[i])
    return some.map((point) => ({ point, weight: points.length / some.length }))
  })
}

const powerOf = ({ areaM2, diffuse, glossy }: VirtualPoint): number =>
  areaM2 * glossy.reduce((sum, { strength }) => sum + luminanceFromSrgb(strength), Math.PI * luminanceFromSrgb(diffuse))
