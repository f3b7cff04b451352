import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { RECEPTOR_SOLID_ANGLE, receptorCosine, receptorResponse } from '../../src/photometry'
import { hiddenMeters } from '../../src/readings'
import { sitterAround } from '../../src/rig'
import {
  addBackdropGrid,
  addFaceGrid,
  addMeterPlace,
  firstSitting,
  type MeterPlace,
  type Sitting,
  type Source,
  setOwnMeter,
} from '../../src/sitting'
import { EYE_M, inputOf, lamp, setOf, stopsBetween, take } from './set'

const BLACK = { wallReflectance: 0, ceilingReflectance: 0, floorReflectance: 0 }
const fixed: Partial<Sitting> = {
  reExpose: 'nothing',
  room: { ...firstSitting().room, ...BLACK, widthM: 16, depthM: 16, heightM: 5 },
}
/** In free air, away from the sitter and of the lamp's shadow. */
const AIR: readonly [number, number, number] = [1.2, 1.2, 0.5]
/** A bare small lamp straight before AIR, far enough to be a point: 18 cm at 4 m. */
const towards = (letter: string, angleDeg: number, rest: Partial<Source> = {}): Source => {
  const a = (angleDeg * Math.PI) / 180
  return {
    ...lamp(letter, { modifier: defaultModifier('dish') }),
    centreM: [AIR[0] + 4 * Math.sin(a), AIR[1], AIR[2] + 4 * Math.cos(a)],
    aimM: AIR,
    ...rest,
  }
}
const meter = (sitting: Sitting, place: Partial<MeterPlace>): readonly [Sitting, string] => {
  const made = addMeterPlace(sitting, { at: { pointM: AIR }, facing: { aimM: [AIR[0], AIR[1], 5] }, ...place })
  return [made.sitting, `place.${made.id}`]
}
const readOf = (sitting: Sitting, place: Partial<MeterPlace>) => {
  const [with1, id] = meter(sitting, place)
  return take(with1).of(id)
}
const shownOf = (sitting: Sitting, place: Partial<MeterPlace>): number => readOf(sitting, place).value as number

/** trade.md §2.10, dome or disc kept facing the camera against one to the light, ideal cardioid and cosine: computed. */
test.each([
  [30, -0.1, -0.21],
  [45, -0.23, -0.5],
  [50, -0.28, -0.64],
  [60, -0.42, -1.0],
])('a small source %i° off: dome %f stop, disc %f stop', (angle, dome, disc) => {
  const set = setOf([towards('A', angle)], fixed)
  const to = (receptor: MeterPlace['receptor']) =>
    stopsBetween(shownOf(set, { receptor, facing: { sourceId: 'source-A' } }), shownOf(set, { receptor }))
  // The table's own rounding, and what 18 cm at 4 m is wide.
  expect(Math.abs(to('dome') - dome)).toBeLessThan(0.006)
  expect(Math.abs(to('disc') - disc)).toBeLessThan(0.006)
  expect(Math.abs(to('shaded dome') - dome)).toBeLessThan(0.006)
})

test('a hand keeps off what lies behind a shaded dome: a lamp 120° off gives a dome a quarter, −2.0 stops, and it nothing', () => {
  const set = setOf([towards('A', 120)], fixed)
  // (1 + cos 120°)/2 = 1/4.
  const straight = shownOf(set, { receptor: 'dome', facing: { sourceId: 'source-A' } })
  expect(stopsBetween(straight, shownOf(set, { receptor: 'dome' }))).toBeCloseTo(-2, 2)
  expect(readOf(set, { receptor: 'shaded dome' }).value).toBeNull()
})

test.each(['disc', 'dome', 'shaded dome'] as const)(
  'draws of a %s follow its response: mean cosine by both integrals',
  (receptor) => {
    const n = 4000
    let drawn = 0
    let solid = 0
    let along = 0
    for (let i = 0; i < n; i++) {
      const c = -1 + (2 * (i + 0.5)) / n
      drawn += receptorCosine(receptor, (i + 0.5) / n) / n
      solid += (2 * Math.PI * receptorResponse(receptor, c) * 2) / n
      along += (2 * Math.PI * c * receptorResponse(receptor, c) * 2) / n
    }
    expect(solid / RECEPTOR_SOLID_ANGLE[receptor]).toBeCloseTo(1, 3)
    expect(drawn).toBeCloseTo(along / solid, 3)
  },
)

test('one source, several or all: exposures add', () => {
  const set = setOf([towards('A', 10), towards('B', -20), towards('C', 30)], fixed)
  const of = (...letters: string[]) =>
    shownOf(set, { receptor: 'disc', ...(letters.length > 0 && { sourceIds: letters.map((l) => `source-${l}`) }) })
  // N² ∝ H [EXP-INC]: f-numbers of lights apart add in squares.
  expect(of()).toBeCloseTo(Math.hypot(of('A'), of('B'), of('C')), 9)
  expect(of('A', 'C')).toBeCloseTo(Math.hypot(of('A'), of('C')), 9)
  // As a meter is left whose only source was removed: nobody's light, which is no darkness.
  const none = readOf(set, { receptor: 'disc', sourceIds: [] })
  expect(none.value).toBeNull()
  expect(none.sentence).toMatch(/counts no source at/)
})

test('flash without the modelling lamp, the modelling lamp without flash', () => {
  const set = setOf([towards('A', 0), towards('B', 20, { modifier: defaultModifier('modelling-lamp') })], fixed)
  const of = (counts?: 'flash' | 'steady') => shownOf(set, { receptor: 'disc', ...(counts && { counts }) })
  expect(of('flash')).toBeCloseTo(shownOf(set, { receptor: 'disc', sourceIds: ['source-A'] }), 9)
  expect(of('steady')).toBeCloseTo(shownOf(set, { receptor: 'disc', sourceIds: ['source-B'] }), 9)
  // And the flash does not ask how long the shutter is open; the lamp does, stop for stop.
  const longer = { ...set, camera: { ...set.camera, shutterS: 2 * set.camera.shutterS } }
  expect(shownOf(longer, { receptor: 'disc', counts: 'flash' })).toBeCloseTo(of('flash'), 9)
  expect(stopsBetween(of('steady'), shownOf(longer, { receptor: 'disc', counts: 'steady' }))).toBeCloseTo(1, 6)
})

test('every scale of one reading: f-number, thirds, EV and lx·s by the standard', () => {
  const set = setOf([towards('A', 0)], fixed)
  const { value, also, text } = readOf(set, { receptor: 'disc' })
  const { iso, shutterS } = set.camera
  // Guide number [EXP-GN]: N = GN/d at ISO 100 on the axis, GN = 3.2·√J; the head at 2^powerStops.
  const head = set.sources[0]!.head
  const n = (3.2 * Math.sqrt(head.energyJ * 2 ** head.powerStops) * Math.sqrt(iso / 100)) / 4
  expect(Math.abs(stopsBetween(n, value as number))).toBeLessThan(0.02)
  expect(also!.luxSeconds).toBeCloseTo((250 * (value as number) ** 2) / iso, 6)
  expect(also!.ev).toBeCloseTo(Math.log2((value as number) ** 2 / shutterS), 9)
  expect(also!.thirds).toMatch(/^f\/[\d.]+$/)
  expect(text).toMatch(/^f\/[\d.]+ \+ 0\.\d$/)
})

/** physics.md §5: 330 and 340 show −0.40 and −0.44 stop. */
test.each([
  [330, -0.4],
  [340, -0.44],
])("a dome of C = %i shows %f stop; the disc and the camera's exposure stay", (domeC, stops) => {
  const set = setOf([towards('A', 0)], fixed)
  const own = setOwnMeter(set, { domeC })
  expect(stopsBetween(shownOf(set, { receptor: 'dome' }), shownOf(own, { receptor: 'dome' }))).toBeCloseTo(stops, 2)
  expect(shownOf(own, { receptor: 'disc' })).toBe(shownOf(set, { receptor: 'disc' }))
  expect(take(own).value('meter.dome')).toBeCloseTo(stops, 2)
  expect(take(own).value('exposure.nearCheek.disc.light')).toBe(take(set).value('exposure.nearCheek.disc.light'))
})

test('a spot on an 18 % card reads 0.20 stop over the incident disc; on black velvet and white paper as their reflectance', () => {
  const spotOn = (reflectance: number): number => {
    const card = {
      id: 'card',
      kind: 'card' as const,
      centreM: AIR,
      widthM: 0.4,
      heightM: 0.4,
      turnDeg: 0,
      tiltDeg: 0,
      reflectance,
    }
    const set = setOf([towards('A', 0)], { ...fixed, objects: [card] })
    const incident = { receptor: 'disc' as const, at: { pointM: [AIR[0], AIR[1], AIR[2] + 0.005] as const } }
    return stopsBetween(shownOf(set, incident), shownOf(set, { receptor: 'spot' }))
  }
  // log₂(ρ·C/(π·K)) [EXP-SPOT].
  for (const rho of [0.18, 0.01, 0.88])
    expect(Math.abs(spotOn(rho) - Math.log2((rho * 250) / (Math.PI * 12.5)))).toBeLessThan(0.005)
})

test('a grid on the backdrop: its spread is that of a small even face square to the paper, cos²/d²', () => {
  const panel = { ...defaultModifier('led-panel'), widthM: 0.05, heightM: 0.05 }
  const set = setOf([{ ...lamp('A', { modifier: panel }), centreM: [2, 1.2, 0.5], aimM: [2, 1.2, -1.5] }], {
    ...fixed,
    backdrop: { widthM: 2.72, heightM: 2.4, distanceM: 1.5, reflectance: [0.6, 0.6, 0.6] },
  })
  const { sitting } = addBackdropGrid(set, 3)
  const taken = take(sitting)
  const law = sitting.meterPlaces.map(({ at }) => {
    const { acrossShare, upShare } = at as { acrossShare: number; upShare: number }
    // A receptor stands 5 mm before the paper.
    const depth = 2 - 0.005
    return depth / Math.hypot(2 - acrossShare * 1.36, upShare * 1.2, depth) ** 2
  })
  expect(law).toHaveLength(9)
  const spread = stopsBetween(Math.min(...law), Math.max(...law))
  expect(Math.abs(taken.value('grid.backdrop 3 × 3.spread') - spread)).toBeLessThan(0.005)
})

test('a meter inside the head reads nothing and says so; before the face, above the crown and beside the ear it is outside', () => {
  const set = setOf([lamp('A', { az: 30, el: 30 })], fixed)
  const { rig } = inputOf(set)
  const mark = (name: 'eyeCentreLeft' | 'noseTip' | 'crown' | 'earLeft') =>
    rig.figures[0]!.posed.landmarks[name].position
  expect(sitterAround(rig, [0, EYE_M, -0.06])).toBe('the sitter')
  expect(sitterAround(rig, [0, EYE_M - 0.35, -0.1])).toBe('the sitter')
  const [nx, ny, nz] = mark('noseTip')
  expect(sitterAround(rig, [nx, ny, nz + 0.01])).toBeNull()
  const [cx, cy, cz] = mark('crown')
  expect(sitterAround(rig, [cx, cy + 0.02, cz])).toBeNull()
  const [ex, ey, ez] = mark('earLeft')
  expect(sitterAround(rig, [ex + 0.03, ey, ez])).toBeNull()
  const read = readOf(set, { at: { pointM: [0, EYE_M, -0.06] } })
  expect(read.value).toBeNull()
  expect(read.sentence).toMatch(/inside the sitter/)
})

test('a grid of which one lit place is left has no spread, and does not call it dark', () => {
  const set = setOf([lamp('A')])
  const grid = addFaceGrid(set).sitting
  const [one] = grid.meterPlaces
  const { sentence } = take({ ...grid, meterPlaces: [one!] }).of('grid.face, six places.spread')
  expect(sentence).not.toMatch(/no light/)
  expect(sentence).toMatch(/one place is left/)
})

test('a meter behind the head, or held at its back, is hidden from the lens; one before the face or at its chin is not', () => {
  const places = {
    before: { at: { pointM: [0, EYE_M, 0.4] } },
    behind: { at: { pointM: [0, EYE_M, -0.4] } },
    beside: { at: { pointM: [0.4, EYE_M, -0.4] } },
    chin: { at: { sitterId: setOf([]).sitters[0].id, landmark: 'chin' } },
    back: { at: { sitterId: setOf([]).sitters[0].id, landmark: 'backOfHead' } },
  } as const
  let sitting = setOf([lamp('A', { modifier: defaultModifier('dish') })])
  const ids = Object.entries(places).map(([name, place]) => {
    const made = addMeterPlace(sitting, place)
    sitting = made.sitting
    return [made.id, name] as const
  })
  const input = inputOf(sitting)
  const { lens } = hiddenMeters({ rig: input.rig, bodies: input.bodies!, caster: input.caster }, sitting.meterPlaces)
  expect(ids.filter(([id]) => lens.includes(id)).map(([, name]) => name)).toEqual(['behind', 'back'])
})

test('each source alone at the chin adds up to a meter held there for all (N² ∝ H [EXP-INC]); the crown answers to what lights the hair', () => {
  const hair = { ...lamp('B', { az: 160, el: 50, d: 1.5 }), role: 'hair' as const }
  const [sitting, id] = meter(setOf([lamp('A', { az: 40, el: 30 }), hair, lamp('C', { az: -20, el: 10 })], fixed), {
    at: { sitterId: firstSitting().sitters[0].id, landmark: 'chin' },
    facing: 'lens',
    receptor: 'dome',
  })
  const { of } = take(sitting)
  const squares = ['A', 'B', 'C'].reduce((sum, letter) => {
    const { value } = of(`source.${letter}.at.chin`)
    return sum + (typeof value === 'number' ? value ** 2 : 0)
  }, 0)
  expect(Math.sqrt(squares) / Number(of(id).value)).toBeCloseTo(1, 4)
  expect(of('source.B.at.hair').value).toBeGreaterThan(0)
  expect(take(sitting).readings.filter(({ id }) => id.endsWith('.at.hair'))).toHaveLength(1)
})
