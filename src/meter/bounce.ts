import { ggx, luminanceFromSrgb, RECEPTOR_SOLID_ANGLE, type Receptor, type Rgb, receptorCosine } from '../photometry'
import {
  isMirror,
  type Material,
  type Mirror,
  mirrorOf,
  mirrorSide,
  type RigSource,
  reflectedDirection,
  reflectedPoint,
} from '../rig'
import { addScaled, basisAround, dot, hash32, pointToLocal, pointToWorld, scale, type Vec3 } from '../space'
import { type BodyMeaning, materialAt } from './bodies'
import { Draws } from './draws'
import { sampleGgx } from './ggx'
import { mirroredAt, wayByMirror } from './mirrored'
import { pieceAt } from './pieces'
import { litSources, type MeterScene, ownGear, type Probe } from './scene'

/** Light that reached a place by way of at least one surface, from one source at 1 cd·s and in its own colour. */
export interface BouncedLight {
  readonly sourceId: string
  /** 1/m² a band. */
  readonly mean: Rgb
  /** The same by what sent it on last. */
  readonly sent: Sent
  /** Of the mean's luminance, from the spread between batches, 1/m². */
  readonly standardError: number
}

/** What sends light on to a place: panels, cards and flags; walls, ceiling, floor and backdrop; sitters, balls and gear. */
export const SENDERS = ['boards', 'room', 'rest'] as const
export type Sender = (typeof SENDERS)[number]
export type Sent = Readonly<Record<Sender, Rgb>>

const BOARDS: readonly string[] = ['panel', 'card', 'flag']

const senderOf = (meaning: BodyMeaning): Sender =>
  meaning.kind !== 'surface' ? 'rest' : BOARDS.includes(meaning.surface.kind) ? 'boards' : 'room'

export interface BounceOptions {
  /** Paths in all; rounded up to a whole number a batch. */
  readonly paths: number
  /** Paths of this seed that were traced before: these are the next ones. */
  readonly after?: number
  readonly seed?: number
  readonly sources?: readonly RigSource[]
}

/** Independent scrambles of the sequence, whose spread is the standard error. */
export const BATCHES = 16
/** Roulette ends paths long before; this only bounds a room of mirrors. */
const MOST_BOUNCES = 64
const SURE_BOUNCES = 2
/** Metres by which a path leaves the surface it met. */
const LIFT = 2e-4
/** A gloss is narrow, so its light ray is drawn this many times. */
const GLOSS_RAYS = 4

/**
 * Unidirectional paths from the place, one light ray a source at each hit, and what a mirror throws there, which is summed over
 * the lit face instead. Same inputs, same answer.
 */
export function bounceAt(
  scene: MeterScene,
  probe: Probe,
  receptor: Receptor,
  { paths, seed = 1, sources = litSources(scene.rig) }: BounceOptions,
): readonly BouncedLight[] {
  const each = Math.ceil(paths / BATCHES)
  const batches = Array.from({ length: BATCHES }, (_, i) =>
    bounceBatch(scene, probe, receptor, { paths: each, seed: hash32(seed, i), sources }),
  )
  const mirrored = mirroredAt(scene, probe, receptor, sources)
  return sources.map((source, s) => ({
    sourceId: source.id,
    ...withMirrored(summary(batches.map((batch) => batch[s])), mirrored[s]),
  }))
}

/** The mean over paths of two stretches of a batch, the first of `share` of them. */
export const together = (first: readonly Sent[], next: readonly Sent[], share: number): readonly Sent[] =>
  first.map((sent, s) => {
    const mixed = (sender: Sender): Rgb => {
      const [a, b] = [sent[sender], next[s]![sender]]
      return [0, 1, 2].map((band) => share * a[band]! + (1 - share) * b[band]!) as unknown as Rgb
    }
    return { boards: mixed('boards'), room: mixed('room'), rest: mixed('rest') }
  })

/** Light over a mirror comes from a board. */
export const withMirrored = <T extends Omit<BouncedLight, 'sourceId'>>(light: T, mirrored: Rgb): T => ({
  ...light,
  mean: added(light.mean, mirrored),
  sent: { ...light.sent, boards: added(light.sent.boards, mirrored) },
})

/** Mean and standard error of the mean over batches of equal size. */
export function summary(batches: readonly Sent[]): Omit<BouncedLight, 'sourceId'> {
  const n = batches.length
  const meanOf = (values: readonly Rgb[]): Rgb => [0, 1, 2].map((band) => sum(values, band) / n) as unknown as Rgb
  const totals = batches.map(({ boards, room, rest }) => added(added(boards, room), rest))
  const mean = meanOf(totals)
  const y = luminanceFromSrgb(mean)
  const squares = totals.reduce((total, b) => total + (luminanceFromSrgb(b) - y) ** 2, 0)
  const [boards, room, rest] = SENDERS.map((sender) => meanOf(batches.map((batch) => batch[sender])))
  const standardError = n > 1 ? Math.sqrt(squares / (n * (n - 1))) : Number.POSITIVE_INFINITY
  return { mean, sent: { boards, room, rest }, standardError }
}

const sum = (values: readonly Rgb[], band: number): number => values.reduce((total, value) => total + value[band], 0)
const added = (a: Rgb, b: Rgb): Rgb => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

type Sums = [number, number, number][]

/**
 * One batch, or what comes of it after so many paths: the mean over its paths for each source, 1/m²; what comes straight over a
 * mirror left out.
 */
export function bounceBatch(
  scene: MeterScene,
  { point, normal, casingM = 0 }: Probe,
  receptor: Receptor,
  { paths, after = 0, seed = 1, sources = litSources(scene.rig) }: BounceOptions,
): readonly Sent[] {
  const nothing = (): Sums => sources.map(() => [0, 0, 0])
  const sums: Record<Sender, Sums> = { boards: nothing(), room: nothing(), rest: nothing() }
  const axes = basisAround(normal)
  for (let i = after; i < after + paths; i++) {
    const draw = new Draws(i, seed)
    const cosine = receptorCosine(receptor, draw.next())
    const first = around(normal, axes, cosine, draw.next())
    if (casingM > 0 && isCovered(scene, point, first, casingM)) continue
    trace(scene, sources, point, first, RECEPTOR_SOLID_ANGLE[receptor], draw, (met) => sums[senderOf(met)])
  }
  const mean = ([r, g, b]: Sums[number]): Rgb => [r / paths, g / paths, b / paths]
  return sources.map((_, s) => ({
    boards: mean(sums.boards[s]),
    room: mean(sums.room[s]),
    rest: mean(sums.rest[s]),
  }))
}

/** Whether a ray from a meter ends on the sitter against whom it is held. */
function isCovered({ caster, bodies }: MeterScene, from: Vec3, direction: Vec3, casingM: number): boolean {
  const hit = caster.nearest(from, direction)
  return hit !== null && hit.distance < casingM && bodies.meanings[hit.bodyIndex].kind === 'figure'
}

/**
 * What comes back along a ray by way of what it meets, a triple a source: luminance per 1 cd·s, 1/m². One path, number
 * `index` of its seed. A source that shows in a mirror is left out.
 */
export function reflectedAlong(
  scene: MeterScene,
  sources: readonly RigSource[],
  { point, direction }: { readonly point: Vec3; readonly direction: Vec3 },
  { index, seed }: { readonly index: number; readonly seed: number },
): readonly Rgb[] {
  const sums: Sums = sources.map(() => [0, 0, 0])
  trace(scene, sources, point, direction, 1, new Draws(index, seed), () => sums)
  return sums
}

function around(axis: Vec3, [x, y]: readonly [Vec3, Vec3], cosine: number, u: number): Vec3 {
  const sine = Math.sqrt(Math.max(0, 1 - cosine * cosine))
  const phi = 2 * Math.PI * u
  return addScaled(addScaled(scale(axis, cosine), x, sine * Math.cos(phi)), y, sine * Math.sin(phi))
}

/** Adds what comes back to the sums that are kept for the first thing met. */
function trace(
  scene: MeterScene,
  sources: readonly RigSource[],
  start: Vec3,
  first: Vec3,
  weight: number,
  draw: Draws,
  sumsFor: (met: BodyMeaning) => Sums,
): void {
  const mirror = mirrorOf(scene.rig)
  let sums: Sums | null = null
  let origin = start
  let direction = first
  let through: Rgb = [weight, weight, weight]
  for (let bounce = 0; bounce < MOST_BOUNCES; bounce++) {
    const hit = scene.caster.nearest(origin, direction)
    if (!hit) return
    const meaning = scene.bodies.meanings[hit.bodyIndex]
    const material = materialAt(meaning, hit, direction)
    if (!material) return
    const kept: Sums = sums ?? sumsFor(meaning)
    sums = kept
    const here: Place = {
      point: addScaled(addScaled(origin, direction, hit.distance), hit.normal, LIFT),
      normal: hit.normal,
      towards: scale(direction, -1),
      material,
    }
    const owner = meaning.kind === 'gear' ? meaning.sourceId : null
    // What comes straight over a mirror, the place before it has asked for.
    if (!isMirror(material))
      sources.forEach((source, s) => {
        // A source's light on its own gear is already inside its emission.
        if (source.id !== owner) addReflected(scene, source, here, through, draw, kept[s], null)
        if (mirror) addReflected(scene, source, here, through, draw, kept[s], mirror)
      })
    const next = scattered(here, draw)
    if (!next) return
    through = [through[0] * next.factor[0], through[1] * next.factor[1], through[2] * next.factor[2]]
    if (bounce >= SURE_BOUNCES) {
      const stay = Math.min(0.95, Math.max(...through) / weight)
      if (draw.next() >= stay) return
      through = [through[0] / stay, through[1] / stay, through[2] / stay]
    }
    origin = here.point
    direction = next.direction
  }
}

interface Place {
  readonly point: Vec3
  readonly normal: Vec3
  /** Unit, to where the path came from. */
  readonly towards: Vec3
  readonly material: Material
}

/** Light of one source, straight or over the mirror, that the met surface sends back along the path, through one random point of each emitter. */
function addReflected(
  scene: MeterScene,
  source: RigSource,
  here: Place,
  through: Rgb,
  draw: Draws,
  sum: Sums[number],
  mirror: Mirror | null,
): void {
  const f0 = mirror ? mirrorSide(mirror, here.point) : WHITE
  if (!f0) return
  const from = mirror ? reflectedPoint(mirror, here.point) : here.point
  const rays = here.material.kind === 'metal' ? GLOSS_RAYS : 1
  for (const { frame, emission } of source.emitters) {
    const local = pointToLocal(frame, from)
    for (let ray = 0; ray < rays; ray++) {
      const piece = pieceAt(emission, local, draw.next(), draw.next())
      if (!piece) continue
      const lit = pointToWorld(frame, piece.point)
      const straight = unitBetween(from, lit)
      const incident = mirror ? reflectedDirection(mirror, straight) : straight
      const cosine = dot(here.normal, incident)
      if (cosine <= 0) continue
      const isOpen = mirror
        ? wayByMirror(scene, mirror, source.id, here.point, lit)
        : scene.caster.visible(here.point, lit, ownGear(scene, source.id))
      if (!isOpen) continue
      const factor = reflectance(here, incident)
      const k = (piece.strength * cosine) / rays
      for (let band = 0; band < 3; band++)
        sum[band] += through[band] * factor[band] * f0[band] * k * source.colour[band]
    }
  }
}

const WHITE: Rgb = [1, 1, 1]

function unitBetween(a: Vec3, b: Vec3): Vec3 {
  const x = b[0] - a[0]
  const y = b[1] - a[1]
  const z = b[2] - a[2]
  const size = Math.hypot(x, y, z)
  return [x / size, y / size, z / size]
}

/** BRDF a band, 1/sr. */
function reflectance({ material, normal, towards }: Place, incident: Vec3): Rgb {
  if (material.kind === 'matt') {
    const [r, g, b] = material.albedo
    return [r / Math.PI, g / Math.PI, b / Math.PI]
  }
  const k = ggx(normal, incident, towards, material.roughness ** 2)
  return [material.f0[0] * k, material.f0[1] * k, material.f0[2] * k]
}

/** Where the path goes on, with BRDF·cosine/probability a band. */
function scattered(here: Place, draw: Draws): { readonly direction: Vec3; readonly factor: Rgb } | null {
  const { material, normal, towards } = here
  if (isMirror(material)) return { direction: reflectedDirection(here, scale(towards, -1)), factor: material.f0 }
  const u = draw.next()
  const v = draw.next()
  if (material.kind === 'matt')
    return { direction: around(normal, basisAround(normal), Math.sqrt(1 - u), v), factor: material.albedo }
  const drawn = sampleGgx(normal, towards, material.roughness ** 2, u, v)
  if (!drawn) return null
  const [r, g, b] = material.f0
  return { direction: drawn.incident, factor: [r * drawn.weight, g * drawn.weight, b * drawn.weight] }
}
