import { blockedByCylinder, packCircle, packGate, packLobes, scatterPlaces } from '../photometry'
import type { Rig, RigSource } from '../rig'
import {
  add,
  cross,
  directionToWorld,
  distance,
  dot,
  length,
  normalize,
  pointToLocal,
  pointToWorld,
  scale,
  subtract,
  type Vec3,
} from '../space'
import { type Drawn, membersByEmitter } from './ensemble'
import {
  BATCH,
  EMITTER,
  LIT_STRIDE,
  MAX_BLOCKERS,
  MAX_EMITTERS,
  MAX_GLOSSY,
  MAX_OCCLUDERS,
  MIRRORED_ROW,
  OCCLUDER,
  OCCLUDER_KINDS,
  SAMPLE,
  SAMPLE_STRIDE,
  TAPS,
} from './layouts'
import type { LightLayer } from './light-layer'
import type { Place } from './places'
import { sphereAround } from './reach'
import type { WorldSample } from './samples'
import { fitShadowView, type Sphere } from './shadow-frustum'
import type { GearSolid } from './solid-mesh'
import { Records } from './table'

export const newSamples = () => new Records(SAMPLE_STRIDE, BATCH)

/** Lit points of the batch-th batch with their shadow views; casters null: nothing casts a mesh's shadow. sitters: some places. */
export function packSamples(
  table: Records,
  samples: readonly WorldSample[],
  casters: Sphere | null,
  sitters: readonly Place[],
  { batches, standing }: Pick<LightLayer, 'batches' | 'standing'>,
): void {
  samples.forEach((sample, row) => {
    packLight(table, row, sample, sitters)
    packView(table, row, sample.point, sample.normal, casters)
    packScatter(table, row, batches, standing.mayHide(sample.point, sample.patchM, sample.member.index))
  })
}

/** As many as have room for both of their maps, for light over a mirror; mirrored: the casters as it shows them. */
export function packMirrored(
  table: Records,
  samples: readonly WorldSample[],
  casters: Sphere | null,
  mirrored: Sphere | null,
): void {
  samples.forEach((sample, row) => {
    packLight(table, row, sample, [])
    packView(table, row, sample.point, sample.normal, casters)
    packView(table, row + MIRRORED_ROW, sample.point, sample.normal, mirrored)
  })
}

const SCATTER = scatterPlaces(BATCH)
/** In another batch a point has another place of the skin, turned by the golden ratio: odd, so that in sixteen it has had all. */
const NEXT_PLACE = 7
const TURN = Math.PI * (Math.sqrt(5) - 1)

function packScatter(table: Records, row: number, batch: number, mayBeHidden: boolean): void {
  const { x, y, share } = SCATTER[(row * 5 + batch * NEXT_PLACE) % BATCH]
  const [c, s] = [Math.cos(batch * TURN) / MM, Math.sin(batch * TURN) / MM]
  table.set(row, SAMPLE.scatter, [x * c - y * s, x * s + y * c, Math.hypot(x, y) / MM])
  table.set(row, SAMPLE.scatterShare, share, mayBeHidden ? 1 : 0)
}
const MM = 1000

/** Lit points without shadow views, one after another. */
export function packLit(samples: readonly WorldSample[]): Records {
  const table = new Records(LIT_STRIDE, Math.max(1, samples.length))
  samples.forEach((sample, row) => {
    packLight(table, row, sample, [])
  })
  return table
}

/** The first rows of a table of samples without their shadow views, then more points. */
export function packEven(few: Records, fewCount: number, many: readonly WorldSample[]): Records {
  const table = new Records(LIT_STRIDE, fewCount + many.length)
  const width = LIT_STRIDE * 4
  for (let row = 0; row < fewCount; row++) {
    const from = row * few.columns * 4
    table.data.set(few.data.subarray(from, from + width), row * width)
  }
  many.forEach((sample, i) => {
    packLight(table, fewCount + i, sample, [])
  })
  return table
}

function packLight(table: Records, row: number, sample: WorldSample, sitters: readonly Place[]): void {
  const { lit, emitter, emitterRow, member, point, normal, incident, weightM2, patchM } = sample
  const { cosI, lobes, beams } = packLobes(lit)
  table.set(row, SAMPLE.point, point, weightM2)
  table.set(row, SAMPLE.normal, normal, emitterRow)
  table.set(row, SAMPLE.incident, incident, cosI)
  table.set4(row, SAMPLE.lobes, lobes)
  table.set4(row, SAMPLE.beams, beams)
  table.set(row, SAMPLE.tint, member.rgb, member.index)
  const { gate } = emitter.emission
  table.set(row, SAMPLE.patch, [patchM, 0, packGate(gate).kind], ownShare(sample, sitters))
  const { normal: way, heightM, from, radiusM } = packCircle(gate, lit.point)
  table.set(row, SAMPLE.circlePlane, directionToWorld(emitter.frame, way), heightM)
  table.set(row, SAMPLE.circle, directionToWorld(emitter.frame, from), radiusM)
}

/** Share of what a point sends to the sitters that its source's own dish and body let through. */
function ownShare({ point, lit, emitter }: WorldSample, sitters: readonly Place[]): number {
  const { blockers } = emitter.emission
  if (blockers.length === 0) return 1
  let [sent, passed] = [0, 0]
  for (const place of sitters) {
    const squarely = dot(place.normal, subtract(point, place.point))
    if (squarely <= 0) continue
    sent += squarely
    if (!blockedByCylinder(lit.point, pointToLocal(emitter.frame, place.point), blockers)) passed += squarely
  }
  return sent > 0 ? passed / sent : 1
}

/** A ray may touch the source's own dish and body only if it touches this ball. */
function ownBall({ frame, emission: { blockers } }: RigSource['emitters'][number]): Sphere {
  if (blockers.length === 0) return { centre: frame.origin, radiusM: 0 }
  const ends = blockers.flatMap(({ from, to, radiusM }) =>
    [from, to].map((end) => ({ centre: pointToWorld(frame, end), radiusM })),
  )
  const centre = scale(
    ends.reduce<Vec3>((sum, end) => add(sum, end.centre), [0, 0, 0]),
    1 / ends.length,
  )
  return { centre, radiusM: Math.max(...ends.map((end) => distance(centre, end.centre) + end.radiusM)) }
}

/** Virtual points of panels, as sums of a batch. White balance: see LightLayer. */
export function packVirtual(
  table: Records,
  drawn: readonly Drawn[],
  whiteGain: Vec3,
  casters: Sphere | null,
  standing: LightLayer['standing'],
): void {
  drawn.forEach((one, row) => {
    const { point, normal, areaM2 } = one.point
    packVirtualLight(table, row, one, whiteGain, SAMPLE.glossy)
    table.set(row, SAMPLE.scatterShare, [0, 0, 0], standing.mayHidePoint(point, Math.sqrt(areaM2)) ? 1 : 0)
    packView(table, row, point, normal, casters)
  })
}

/** What a virtual point sends, without its shadow view; its directions stand from the column `glossyAt` on. */
export function packVirtualLight(
  table: Records,
  row: number,
  { point: { point, normal, areaM2, diffuse, glossy, alpha }, weight }: Drawn,
  whiteGain: Vec3,
  glossyAt: number,
): void {
  if (glossy.length > MAX_GLOSSY)
    throw new Error(
      `render.packVirtual: a virtual point carries at most ${MAX_GLOSSY} directions, got ${glossy.length}`,
    )
  const white = (rgb: Vec3): Vec3 => [rgb[0] * whiteGain[0], rgb[1] * whiteGain[1], rgb[2] * whiteGain[2]]
  table.set(row, SAMPLE.point, point, areaM2 * weight * BATCH)
  table.set(row, SAMPLE.normal, normal, alpha)
  table.set(row, SAMPLE.incident, white(diffuse), glossy.length)
  table.set(row, SAMPLE.patch, [0.5 * Math.sqrt(areaM2), areaM2, 0])
  glossy.forEach(({ incident, strength }, i) => {
    table.set(row, glossyAt + 2 * i, incident)
    table.set(row, glossyAt + 2 * i + 1, white(strength))
  })
}

function packView(table: Records, row: number, point: Vec3, normal: Vec3, casters: Sphere | null): void {
  if (!casters) {
    table.set(row, SAMPLE.map, [0, 0, 0])
    return
  }
  const { rows, nearM, farM, tangent } = fitShadowView(point, normal, casters)
  const columns = [SAMPLE.clipX, SAMPLE.clipY, SAMPLE.clipZ, SAMPLE.clipW]
  rows.forEach(([direction, offset], i) => {
    table.set(row, columns[i], direction, i === 3 ? offset - nearM : offset)
  })
  const perM = (nearM * farM) / (farM - nearM)
  table.set(row, SAMPLE.map, [nearM, farM / (farM - nearM), 0], 1 / (tangent * perM))
  for (let i = 0; i < TAPS; i += 2) {
    const [a, b] = [tapAt(row * TAPS + i), tapAt(row * TAPS + i + 1)]
    table.set(row, SAMPLE.tap + i / 2, [a[0], a[1], b[0]], b[1])
  }
}

/** Places over the square −1 to 1 (R2 sequence, Roberts 2018), the next eight for the next sample: all of a batch fill it. */
const tapAt = (index: number): readonly [number, number] => {
  const along = (step: number) => 2 * ((0.5 + index * step) % 1) - 1
  return [along(0.7548776662466927), along(0.5698402909980532)]
}

/** Frames, gates and own blockers of a source's emitters, one row each. */
export function packEmitters(source: RigSource): Records {
  const { id, emitters } = source
  if (emitters.length > MAX_EMITTERS)
    throw new Error(`render.packEmitters: source ${id}: at most ${MAX_EMITTERS} emitters, got ${emitters.length}`)
  const table = new Records(EMITTER.columns, Math.max(1, emitters.length))
  const members = membersByEmitter(source)
  emitters.forEach((emitter, row) => {
    const { frame, emission } = emitter
    const { gate, blockers } = emission
    table.set(row, EMITTER.tint, members[row].rgb, members[row].index)
    const { centre, radiusM: reachM } = ownBall(emitter)
    table.set(row, EMITTER.ownBall, centre, reachM)
    table.set(row, EMITTER.origin, frame.origin)
    table.set(row, EMITTER.axisX, frame.x)
    table.set(row, EMITTER.axisY, frame.y)
    table.set(row, EMITTER.axisZ, frame.z)
    const { a, b } = packGate(gate)
    table.set4(row, EMITTER.gateA, a)
    table.set4(row, EMITTER.gateB, b)
    if (blockers.length > MAX_BLOCKERS)
      throw new Error(`render.packEmitters: source ${id}: at most ${MAX_BLOCKERS} own blockers, got ${blockers.length}`)
    blockers.forEach(({ from, to, radiusM }, i) => {
      table.set(row, EMITTER.blocker0From + 2 * i, pointToWorld(frame, from), radiusM)
      table.set(row, EMITTER.blocker0To + 2 * i, pointToWorld(frame, to))
    })
  })
  return table
}

/** One thing that blocks a source's light and is tested in closed form. */
export type Occluder = GearSolid | { readonly kind: 'ball'; readonly centre: Vec3; readonly radiusM: number }

/** All that blocks, gear of one source left out. Walls too: they stand in the way of a lamp that was moved out of the room. */
export function occludersFor(rig: Rig, without: RigSource | null): readonly Occluder[] {
  return [
    ...rig.surfaces.map(({ rect }) => ({ kind: 'rectangle', rect, albedo: [0, 0, 0] }) as const),
    ...rig.balls.map(({ centre, radiusM }) => ({ kind: 'ball', centre, radiusM }) as const),
    ...rig.sources.filter(({ id }) => id !== without?.id).flatMap(({ gear }) => gear),
  ]
}

export function packOccluders(occluders: readonly Occluder[]): Records {
  if (occluders.length > MAX_OCCLUDERS)
    throw new Error(
      `The picture tests at most ${MAX_OCCLUDERS} flat and round things that stand between a source and the sitter, got ${occluders.length}. Remove some.`,
    )
  const table = new Records(OCCLUDER.columns, Math.max(1, occluders.length))
  occluders.forEach((occluder, row) => {
    const { centre, radiusM } = sphereAround(occluder)
    table.set(row, OCCLUDER.bound, centre, radiusM)
    table.set(row, OCCLUDER.d, [0, 0, 0], OCCLUDER_KINDS[occluder.kind])
    packShape(table, row, occluder)
  })
  return table
}

function packShape(table: Records, row: number, occluder: Occluder): void {
  switch (occluder.kind) {
    case 'rectangle': {
      const { centre, halfU, halfV } = occluder.rect
      table.set(row, OCCLUDER.a, centre)
      table.set(row, OCCLUDER.b, scale(halfU, 1 / dot(halfU, halfU)), length(halfU))
      table.set(row, OCCLUDER.c, scale(halfV, 1 / dot(halfV, halfV)), length(halfV))
      table.set(row, OCCLUDER.d, normalize(cross(halfU, halfV)), OCCLUDER_KINDS.rectangle)
      return
    }
    case 'disc':
      table.set(row, OCCLUDER.a, occluder.centre)
      table.set(row, OCCLUDER.b, occluder.normal, occluder.radiusM)
      return
    case 'ball':
      table.set(row, OCCLUDER.a, occluder.centre, occluder.radiusM)
      return
    case 'cylinder':
      table.set(row, OCCLUDER.a, occluder.from, occluder.radiusM)
      table.set(row, OCCLUDER.b, occluder.to)
      return
    case 'cap':
      table.set(row, OCCLUDER.a, occluder.rimCentre, occluder.diameterM / 2)
      table.set(row, OCCLUDER.b, occluder.axis, occluder.depthM)
  }
}
