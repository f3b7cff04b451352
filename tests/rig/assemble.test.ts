import { describe, expect, test } from 'vitest'
import {
  assembleRig,
  axialIntensity,
  createRigBuilder,
  farCheek,
  keyOf,
  meterPoint,
  nearCheek,
  placeLandmarks,
  type Surface,
} from '../../src/rig'
import { addObject, addPanel, firstSitting, setHead, setRoom, sourcePlace, switchSource } from '../../src/sitting'
import { cross, dot, length, normalize, subtract, type Vec3 } from '../../src/space'
import { STAND_IN } from './stand-in'

const assets = { figure: STAND_IN }
const first = firstSitting()
const rig = assembleRig(first, assets)
const surface = (id: string, of = rig): Surface => {
  const found = of.surfaces.find((candidate) => candidate.id === id)
  if (!found) throw new Error(`no surface ${id}`)
  return found
}
const front = ({ rect }: Surface): Vec3 => normalize(cross(rect.halfU, rect.halfV))

describe('the intensity of a head', () => {
  test('400 J is guide number 64 and 10 240 cd·s', () => {
    // GN = 3.2·√J is common practice, no source; 250·64²/100 follows from ISO 2720's N² = H·S/C with C = 250.
    const head = { ...first.sources[0].head, energyJ: 400, powerStops: 0 }
    expect(axialIntensity(head)).toBeCloseTo(10240, 9)
    // Half power is exactly one stop.
    expect(axialIntensity({ ...head, powerStops: -1 })).toBeCloseTo(5120, 9)
    // A stated guide number counts, whatever the energy: 250·40²/100.
    expect(axialIntensity({ ...head, guideNumberM: 40 })).toBeCloseTo(4000, 9)
  })
})

describe('the key of the first sitting', () => {
  const place = sourcePlace(first.sources[0], first.camera, placeLandmarks(rig.figures[0]))
  test('stands 45° to camera right, 35° up, taped 1.00 m to the near cheek', () => {
    // The set asked for, to what a tape and a protractor tell.
    expect(place.azimuthFromLensDeg).toBeCloseTo(45, 0)
    expect(place.elevationDeg).toBeCloseTo(35, 0)
    expect(place.tapeM).toBeCloseTo(1, 2)
    expect(place.tapeTo).toBe('near cheek')
  })
  test('its frame is right-handed and looks at the aim', () => {
    const { frame, aim } = rig.sources[0]
    expect(dot(frame.z, normalize(subtract(aim, frame.origin)))).toBeCloseTo(1, 12)
    expect(dot(cross(frame.x, frame.y), frame.z)).toBeCloseTo(1, 12)
    expect(frame.y[1]).toBeGreaterThan(0)
  })
  test('its lamp stands between the canopy and the sitter, its emitters are in world metres', () => {
    const { emitters, gear, frame, aim } = rig.sources[0]
    const canopy = emitters.find(({ part }) => part === 'front')
    expect(canopy?.frame.origin).toEqual(frame.origin)
    const lampHead = gear.filter((solid) => solid.kind === 'cylinder')
    expect(lampHead.length).toBeGreaterThan(0)
    for (const solid of lampHead) {
      const along = dot(subtract(solid.from, frame.origin), frame.z)
      expect(along).toBeGreaterThan(0)
      expect(along).toBeLessThan(length(subtract(aim, frame.origin)))
    }
    const cap = gear.find((solid) => solid.kind === 'cap')
    expect(cap && dot(cap.axis, frame.z)).toBeCloseTo(-1, 12)
  })
  test('a lamp of the balance temperature is white, a warmer one redder, both of luminance 1', () => {
    expect(rig.sources[0].colour.every((band) => Math.abs(band - 1) < 1e-9)).toBe(true)
    const [r, g, b] = assembleRig(setHead(first, 'key', { colourTemperatureK: 3200 }), assets).sources[0].colour
    expect(r).toBeGreaterThan(1)
    expect(b).toBeLessThan(g)
    // Luminance weights of IEC 61966-2-1, to their four digits.
    expect(0.2126 * r + 0.7152 * g + 0.0722 * b).toBeCloseTo(1, 3)
  })
})

describe('the set', () => {
  test('the room is a closed box whose fronts face inwards', () => {
    const sides = rig.surfaces.filter(({ id }) => id.startsWith('room.'))
    expect(sides).toHaveLength(6)
    const middle: Vec3 = [0, 1.3, 0.5]
    for (const side of sides) {
      expect(dot(front(side), subtract(middle, side.rect.centre)), side.id).toBeGreaterThan(0)
      expect(side.back).toBeNull()
    }
    const area = sides.reduce((sum, { rect }) => sum + 4 * length(rect.halfU) * length(rect.halfV), 0)
    // 4 × 5 × 2.6 m: 2·(20 + 10.4 + 13).
    expect(area).toBeCloseTo(86.8, 9)
    // Gauss: the outward areas of a closed surface sum to nothing, and a third of Σ c·A is its volume, 52 m³.
    const vectors = sides.map((side) => ({
      centre: side.rect.centre,
      out: cross(side.rect.halfV, side.rect.halfU).map((v) => 4 * v) as unknown as Vec3,
    }))
    expect(
      length(vectors.reduce<Vec3>((sum, { out }) => [sum[0] + out[0], sum[1] + out[1], sum[2] + out[2]], [0, 0, 0])),
    ).toBeCloseTo(0, 12)
    expect(vectors.reduce((sum, { centre, out }) => sum + dot(centre, out) / 3, 0)).toBeCloseTo(52, 9)
  })
  test('floor, ceiling and walls have their own reflectances', () => {
    const painted = assembleRig(
      setRoom(first, { floorReflectance: 0.1, ceilingReflectance: 0.8, wallReflectance: 0.5 }),
      assets,
    )
    expect(surface('room.floor', painted).front).toEqual({ kind: 'matt', albedo: [0.1, 0.1, 0.1] })
    expect(surface('room.ceiling', painted).front).toEqual({ kind: 'matt', albedo: [0.8, 0.8, 0.8] })
    expect(surface('room.wall-camera-left', painted).front).toEqual({ kind: 'matt', albedo: [0.5, 0.5, 0.5] })
    expect(surface('room.wall-camera-left', painted).rect.centre).toEqual([-2, 1.3, 0.5])
  })
  test('the backdrop hangs 1.5 m behind, from the floor up, facing the camera', () => {
    const { rect } = surface('backdrop')
    expect(rect.centre).toEqual([0, 1.2, -1.5])
    expect(front(surface('backdrop'))).toEqual([0, 0, 1])
    expect([length(rect.halfU) * 2, length(rect.halfV) * 2]).toEqual([2.72, 2.4])
  })
  test('the panel at camera left faces camera right, upright, the same on both sides', () => {
    const panel = surface('panel')
    const [x, y, z] = front(panel)
    expect([x, y, z].map((v) => Math.round(v * 1e12) / 1e12 + 0)).toEqual([1, 0, 0])
    expect(length(panel.rect.halfU)).toBeCloseTo(0.5, 12)
    expect(Math.abs(panel.rect.halfV[1])).toBeCloseTo(0.75, 12)
    expect(panel.back).toEqual(panel.front)
  })
  test('a tilted board looks up by its tilt', () => {
    const { sitting, id } = addPanel(first, 'silver')
    const tilted = {
      ...sitting,
      panels: sitting.panels.map((p) => (p.id === id ? { ...p, turnDeg: 30, tiltDeg: 40 } : p)),
    }
    const silver = surface(id, assembleRig(tilted, assets))
    const [x, y, z] = front(silver)
    // Spherical coordinates: tilt is the latitude, turn the longitude from +z to +x.
    expect(y).toBeCloseTo(Math.sin((40 * Math.PI) / 180), 12)
    expect(Math.atan2(x, z)).toBeCloseTo((30 * Math.PI) / 180, 12)
    expect(silver.front).toEqual({ kind: 'metal', f0: [0.88, 0.88, 0.88], roughness: 0.3 })
  })
  test('the flag covers the upper half of its card, the gap in front', () => {
    const { sitting, id } = addObject(first, 'flag-before-card')
    const both = assembleRig(sitting, assets)
    const [card, flag] = [surface(id, both), surface(`${id}.flag`, both)]
    expect([card.kind, flag.kind]).toEqual(['card', 'flag'])
    const lowerEdge = flag.rect.centre[1] - length(flag.rect.halfV)
    expect(lowerEdge).toBeCloseTo(card.rect.centre[1], 12)
    expect(flag.rect.centre[2] - card.rect.centre[2]).toBeCloseTo(0.025, 12)
    expect(length(flag.rect.halfU)).toBe(length(card.rect.halfU))
  })
  test('a ball is a ball', () => {
    const { sitting, id } = addObject(first, 'ball')
    expect(assembleRig(sitting, assets).balls).toEqual([
      { id, centre: [0.32, 1.2, 0], radiusM: 0.075, material: { kind: 'matt', albedo: [0.18, 0.18, 0.18] } },
    ])
  })
})

describe('places on the sitter', () => {
  test('the near cheek is on the side of the key, the far one on the other', () => {
    const key = rig.sources[0].frame.origin
    // The key stands at camera right; a sitter who faces the camera has the own left side there.
    expect(nearCheek(rig.figures[0], key)).toBe('cheekLeft')
    expect(farCheek(rig.figures[0], key)).toBe('cheekRight')
  })
  test('meter places are found, free points are themselves', () => {
    expect(meterPoint(first.meterPlaces[0], rig).point).toBe(rig.figures[0].posed.landmarks.cheekLeft.position)
    expect(meterPoint(first.meterPlaces[3], rig)).toEqual({ point: [0, 1.2, -1.49], normal: null })
    expect(() => meterPoint({ at: { sitterId: 'nobody', landmark: 'chin' } }, rig)).toThrow(/nobody/)
  })
  test('the key is the source of that role that fires', () => {
    expect(keyOf(rig)?.id).toBe('key')
    expect(keyOf(assembleRig(switchSource(first, 'key', false), assets))).toBeNull()
  })
})

test('the view looks from the camera to its aim, upright', () => {
  const { frame } = rig.view
  expect(frame.origin).toEqual([0, 1.2, 1.5])
  expect(dot(frame.z, normalize([0, -0.045, -1.5]))).toBeCloseTo(1, 12)
  expect(frame.y[1]).toBeGreaterThan(0.99)
})

test('parts of untouched records are the same objects, and lists without a change too', () => {
  const build = createRigBuilder(assets)
  const before = build(first)
  const after = build({ ...first, camera: { ...first.camera, iso: 200 } })
  expect(after.sources).toBe(before.sources)
  expect(after.surfaces).toBe(before.surfaces)
  expect(after.figures).toBe(before.figures)
  expect(after.view).not.toBe(before.view)
  const moved = build(switchSource(first, 'key', false))
  expect(moved.sources).not.toBe(before.sources)
  expect(moved.surfaces).toBe(before.surfaces)
  // Power, colour and switch leave the thing in the room as it is; so does the sitter's tone with the mesh.
  expect(moved.sources[0].emitters).toBe(before.sources[0].emitters)
  expect(moved.sources[0].gear).toBe(before.sources[0].gear)
  const tanned = build({ ...first, sitters: [{ ...first.sitters[0], skin: 'tan' }] })
  expect(tanned.figures[0]).not.toBe(before.figures[0])
  expect(tanned.figures[0].posed).toBe(before.figures[0].posed)
  const dragged = build({ ...first, sources: [{ ...first.sources[0], centreM: [0.7, 1.8, 0.5] }] })
  expect(dragged.sources[0].emitters[0].emission).toBe(before.sources[0].emitters[0].emission)
})
