import { directionThrough } from '../../camera'
import { frameTowards, type Vec3 } from '../../space'
import { problemsOfMeterPlace } from '../meter-rules'
import { meterPlaceSchema } from '../meter-schema'
import { EditRefused, problemsOfSchema } from '../problems'

import type { MeterPlace, OwnMeter, Sitting } from '../types'
import type { Added } from './set'
import { type Change, changeThing, freeId, thingById } from './things'

/**
 * What a point lies inside of, in words ('the sitter'), or null; from whoever has the meshes. A meter can be held there by
 * nobody.
 */
export type Inside = (point: Vec3) => string | null
const NOTHING: Inside = () => null

/** Throws EditRefused where the record is no meter place of this sitting, or lies inside a body. */
function requireMeterPlace(sitting: Sitting, place: MeterPlace, inside: Inside): void {
  const path = `meterPlaces[${place.name}]`
  const parsed = meterPlaceSchema.safeParse(place)
  const [problem] = parsed.success ? problemsOfMeterPlace(sitting, place, path) : problemsOfSchema(parsed.error, place)
  if (problem) throw new EditRefused(problem)
  const within = 'pointM' in place.at ? inside(place.at.pointM) : null
  if (within)
    throw new EditRefused({
      rule: 'S8',
      path: `${path}.at`,
      expected: 'a place where a meter can be held',
      got: `a point inside ${within}`,
      advice: 'Hold it in front of the skin, or choose a place of the face by its name.',
    })
}

/** Changes fields of a meter place. A field set to undefined is left out. Throws EditRefused for what no meter can do. */
export function setMeterPlace(
  sitting: Sitting,
  id: string,
  change: Change<MeterPlace>,
  inside: Inside = NOTHING,
): Sitting {
  requireMeterPlace(sitting, { ...thingById(sitting, 'meterPlaces', id), ...change }, inside)
  return changeThing(sitting, 'meterPlaces', id, change)
}

/** Gives a meter place another name. Throws EditRefused where it is blank, or another place has it. */
export function renameMeter(sitting: Sitting, id: string, typed: string): Sitting {
  const before = thingById(sitting, 'meterPlaces', id)
  const name = typed.trim()
  const taken = sitting.meterPlaces.some((place) => place !== before && place.name === name)
  if (name !== '' && !taken) return changeThing(sitting, 'meterPlaces', id, { name })
  throw new EditRefused({
    rule: 'S15',
    path: `name of ${before.name}`,
    expected: taken ? 'a name that no other meter has' : 'a name',
    got: taken ? name : 'nothing',
    advice: 'Type where it is held, such as "left ear".',
  })
}

/** Moves a meter that is held in free air; one that is held on something is taken off it. */
export const moveMeter = (sitting: Sitting, id: string, pointM: Vec3, inside: Inside = NOTHING): Sitting => {
  const { facing } = thingById(sitting, 'meterPlaces', id)
  return setMeterPlace(sitting, id, { at: { pointM }, ...(facing === 'square' && { facing: 'lens' }) }, inside)
}

/** Adds a meter place: as a rule a dome to the lens, 10 cm before the face. */
export function addMeterPlace(
  sitting: Sitting,
  made: Partial<Omit<MeterPlace, 'id'>> = {},
  inside: Inside = NOTHING,
): Added {
  const id = freeId(sitting, 'meter')
  const place: MeterPlace = {
    id,
    name: freeName(sitting, 'meter'),
    at: { pointM: [0, sitting.sitters[0].eyeHeightM - 0.06, 0.25] },
    receptor: 'dome',
    facing: 'lens',
    ...made,
  }
  requireMeterPlace(sitting, place, inside)
  return { sitting: { ...sitting, meterPlaces: [...sitting.meterPlaces, place] }, id }
}

function freeName(sitting: Sitting, stem: string): string {
  const taken = new Set(sitting.meterPlaces.flatMap(({ name, grid }) => [name, grid ?? name]))
  let n = 1
  while (taken.has(`${stem} ${n}`)) n++
  return `${stem} ${n}`
}

/** Adds places that are read together. One that is there already under that word is made anew. */
function addGrid(sitting: Sitting, grid: string, places: readonly Omit<MeterPlace, 'id' | 'grid'>[]): Added {
  const without: Sitting = removeGrid(sitting, grid)
  const made = places.reduce<Added>((before, place) => addMeterPlace(before.sitting, { ...place, grid }), {
    sitting: without,
    id: '',
  })
  return { sitting: made.sitting, id: made.sitting.meterPlaces[without.meterPlaces.length]?.id ?? '' }
}

export const removeGrid = (sitting: Sitting, grid: string): Sitting => ({
  ...sitting,
  meterPlaces: sitting.meterPlaces.filter((place) => place.grid !== grid),
})

const middles = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => (2 * i + 1) / count - 1)
const ROWS = ['bottom', 'middle', 'top'] as const

/**
 * Places in the middles of so many columns by three rows of that part of the backdrop which is in the frame, a disc flat on
 * the paper. Throws EditRefused where there is no backdrop, or none of it in the frame.
 */
export function addBackdropGrid(sitting: Sitting, columns: 3 | 5): Added {
  const seen = seenShares(sitting)
  const places = middles(3).flatMap((v, row) =>
    middles(columns).map((u, column) => ({
      name: `backdrop ${ROWS[row]} ${column + 1}`,
      at: { acrossShare: within(seen.across, u), upShare: within(seen.up, v) },
      receptor: 'disc' as const,
      facing: 'square' as const,
    })),
  )
  return addGrid(sitting, `backdrop ${columns} × 3`, places)
}

type Span = readonly [number, number]
const within = ([low, high]: Span, t: number): number => Math.round(500 * (low + high + t * (high - low))) / 1000

/** Of the backdrop, what the frame takes in, as shares of half its width and height. */
function seenShares({ backdrop, camera }: Sitting): { readonly across: Span; readonly up: Span } {
  const refuse = (expected: string, got: string, advice: string): never => {
    throw new EditRefused({ rule: 'S8', path: 'backdrop', expected, got, advice })
  }
  if (!backdrop) return refuse('a backdrop to hold the meter on', 'none', 'Hang a backdrop first.')
  const frame = frameTowards(camera.positionM, camera.aimM)
  const met = [-1, 1].flatMap((x) =>
    [-1, 1].flatMap((y) => {
      const d = directionThrough(x, y, frame, camera)
      const t = (-backdrop.distanceM - camera.positionM[2]) / d[2]
      return t > 0 ? [[camera.positionM[0] + t * d[0], camera.positionM[1] + t * d[1]] as const] : []
    }),
  )
  const span = (values: readonly number[]): Span => [
    Math.max(-1, Math.min(1, Math.min(...values))),
    Math.max(-1, Math.min(1, Math.max(...values))),
  ]
  const across = span(met.map(([x]) => (2 * x) / backdrop.widthM))
  const up = span(met.map(([, y]) => (2 * y) / backdrop.heightM - 1))
  if (met.length < 4 || !(across[1] > across[0] && up[1] > up[0]))
    return refuse('a backdrop in the frame', 'none of it', 'Turn the camera to it, or move it into the frame.')
  return { across, up }
}

const FACE = [
  ['forehead', 'foreheadCentre'],
  ['nose', 'noseTip'],
  ['cheek at camera left', 'cheekRight'],
  ['cheek at camera right', 'cheekLeft'],
  ['chin', 'chin'],
  ['hair', 'crown'],
] as const

/** Nose, cheeks, chin, forehead and hair of one sitter, a dome to the lens at each. */
export function addFaceGrid(sitting: Sitting, sitterId: string = sitting.sitters[0].id): Added {
  const i = sitting.sitters.findIndex(({ id }) => id === sitterId)
  const who = i > 0 ? `sitter ${i + 1}` : 'face'
  const places = FACE.map(([name, landmark]) => ({
    name: i > 0 ? `${name} of ${who}` : name,
    at: { sitterId, landmark },
    receptor: 'dome' as const,
    facing: 'lens' as const,
  }))
  return addGrid(sitting, `${who}, six places`, places)
}

/** The constant of the dome of the user's meter, lx·s; undefined: as the disc. Throws EditRefused outside 200 to 450. */
export function setOwnMeter(sitting: Sitting, change: OwnMeter): Sitting {
  const { domeC } = change
  if (domeC !== undefined && !(domeC >= 200 && domeC <= 450))
    throw new EditRefused({
      rule: 'S2',
      path: 'meter.domeC',
      expected: 'a number from 200 to 450 lx·s',
      got: String(domeC),
      advice: 'Type the constant from the manual of the meter, as a rule 250 to 340.',
    })
  return { ...sitting, meter: { ...sitting.meter, ...change } }
}
