import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting, setHood } from '../../src/sitting'
import { lamp, setOf, stopsBetween, take } from './set'

const PATHS = 2048
const first = firstSitting()
/** Middle tones all round, and nothing else that sends light on. */
const ROOM = { ...first.room, wallReflectance: 0.5, ceilingReflectance: 0.7, floorReflectance: 0.2 }
const WHITE = { ...first.backdrop!, reflectance: [0.88, 0.88, 0.88] as [number, number, number] }
/** Powers stay, so that two sets can be held against each other. */
const fixed = { reExpose: 'nothing' } as const

test('straight from the source: its share of what the meter shows, with the room and between black walls', () => {
  const key = lamp('A', { az: 45, el: 35, d: 1.5 })
  const [pale, black] = [ROOM, undefined].map((room) => take(setOf([key], { ...fixed, ...(room && { room }) }), PATHS))
  // The same lamp at the same place: what the black set reads is the straight light and what sitter and gear send on.
  const kept = 2 ** -stopsBetween(black.value('source.A.alone'), pale.value('source.A.alone'))
  const { value, sentence } = pale.of('source.A.share')
  const room = Number(/([\d.]+) % from the room/.exec(sentence)?.[1])
  expect(Math.abs(100 * (1 - kept) - room)).toBeLessThan(1)
  expect(value).toBeLessThan(100 - room + 0.5)
  expect(black.of('source.A.share').sentence).not.toMatch(/the room|panels/)
})

test('a panel is told apart from the room', () => {
  const key = lamp('A', { az: 60, el: 20, d: 1.5 })
  // Flat before the chest, its white upwards.
  const flat = { centreM: [0.2, 0.9, 0.35] as [number, number, number], turnDeg: 0, tiltDeg: 80 }
  const panels = first.panels.map((panel) => ({ ...panel, kind: 'white' as const, ...flat }))
  const { sentence } = take(setOf([key], { ...fixed, panels }), PATHS).of('source.A.share')
  expect(sentence).toMatch(/the panels/)
  expect(sentence).not.toMatch(/the room/)
})

test('the room fills the shadow by what black walls would leave out of it', () => {
  const key = lamp('A', { az: 45, el: 35, d: 1.5 })
  const dim = lamp('B', { az: -10, el: 5, d: 2.5 })
  const fill = { ...dim, role: 'fill' as const, head: { ...dim.head, powerStops: key.head.powerStops - 4 } }
  const [pale, black] = [ROOM, undefined].map((room) =>
    take(setOf([key, fill], { ...fixed, ...(room && { room }) }), PATHS),
  )
  const lift = pale.value('edge.A.nose.depth') - black.value('edge.A.nose.depth')
  expect(lift).toBeGreaterThan(0.1)
  // The room's light that comes by way of the sitter's own skin stays with the skin.
  expect(Math.abs(pale.value('edge.A.nose.room') - lift)).toBeLessThan(0.15)
  expect(black.of('edge.A.nose.room')).toMatchObject({ value: null })
})

test('before the bounce is traced neither is told', () => {
  const draft = take(setOf([lamp('A', { az: 45, el: 35 })], { room: ROOM }))
  for (const id of ['source.A.share', 'edge.A.nose.room']) expect(draft.of(id).sentence).toMatch(/not yet traced/)
})

test('a lamp behind the sitter: the angle by which the lens sees it outside the frame; one that faces away: none', () => {
  const { positionM, focalLengthMm, sensorWidthMm } = first.camera
  const behind = lamp('A', { az: 150, el: 0, d: 2 })
  const { value } = take(setOf([behind])).of('source.A.flare')
  // By the plan: lamp, lens and the frame's edge; the dish is 18 cm wide, the lens looks down by less than 2°.
  const away = Math.atan2(behind.centreM[0], positionM[2] - behind.centreM[2])
  const halfFrame = Math.atan(sensorWidthMm / 2 / focalLengthMm)
  const halfDish = 0.09 / Math.hypot(behind.centreM[0], positionM[2] - behind.centreM[2])
  const expected = ((away - halfFrame - halfDish) * 180) / Math.PI
  expect(Math.abs(Number(value) - expected)).toBeLessThan(1.5)
  expect(take(setOf([lamp('A', { az: 30, el: 20, d: 1 })])).of('source.A.flare')).toMatchObject({ value: null })
})

test('flare is cautioned where the lens gets much of the light from beside the frame, and not from a key in front', () => {
  const isWarned = (az: number, d: number) =>
    take(setOf([{ ...lamp('A', { az, el: 5, d }), aimM: [0, 1.2, 1] }])).cautions.some(
      ({ id }) => id === 'caution.A.flare',
    )
  expect(isWarned(160, 2)).toBe(true)
  expect(isWarned(40, 1)).toBe(false)
})

/** One tube: overlap of two equal circles, a half at tanθ·depth/width = 0.404, nothing from 1 on (closed form, Lambert's lens). */
test('a hood halves the light on the lens, then keeps it off; too deep, it darkens the corners', () => {
  const behind = lamp('A', { az: 150, el: 0, d: 2 })
  const set = setOf([behind])
  const { positionM, focalLengthMm, sensorWidthMm, sensorHeightMm } = set.camera
  const tangent = behind.centreM[0] / (positionM[2] - behind.centreM[2])
  const hooded = (cells: number) => take(setHood(set, { diameterM: 0.1, depthM: (0.1 * cells) / tangent }))
  const onLens = ({ of }: ReturnType<typeof take>) =>
    Number(/front ([\d.]+) %/.exec(of('source.A.flare').sentence)?.[1])
  const bare = take(set)
  expect(onLens(bare)).toBeGreaterThan(20)
  expect(Math.abs(onLens(hooded(0.404)) / onLens(bare) - 0.5)).toBeLessThan(0.04)
  const off = hooded(1.3)
  expect(off.of('source.A.flare').value).toBeNull()
  expect(off.of('source.A.flare').sentence).toMatch(/hood keeps/)
  const isDark = ({ cautions }: ReturnType<typeof take>) => cautions.some(({ id }) => id === 'caution.camera.hood')
  // Half a diagonal away from the axis, from the rim of the entrance pupil, f/N wide, to that of the hood.
  const pupil = focalLengthMm / set.camera.fNumber / 1000
  const corner = Math.hypot(sensorWidthMm, sensorHeightMm) / 2 / focalLengthMm
  expect(
    [0.9, 1.1].map((share) =>
      isDark(take(setHood(set, { diameterM: 0.1, depthM: (share * (0.1 - pupil)) / 2 / corner }))),
    ),
  ).toEqual([false, true])
})

test('a white backdrop as light as the face lifts blacks by 0.3 to 1 stop (common practice, no source); a dark one by less than 0.1', () => {
  const veil = (reflectance: number, powerStops: number) => {
    const key = lamp('A', { az: 30, el: 30, d: 1.5 })
    const onPaper = lamp('B', { az: 180, el: 10, d: 0.3, aimM: [0, 1.2, -1.5] })
    const backdrop = { ...WHITE, reflectance: [reflectance, reflectance, reflectance] as [number, number, number] }
    const lit = { ...onPaper, role: 'backdrop' as const, head: { ...onPaper.head, powerStops } }
    return take(setOf([key, lit], { ...fixed, backdrop }))
  }
  const key = veil(0.88, -3)
  // Its own reading says how the paper stands to the face.
  expect(key.value('backdrop.stops')).toBeGreaterThan(-0.5)
  expect(key.value('backdrop.stops')).toBeLessThan(1.5)
  expect(key.value('backdrop.veil')).toBeGreaterThan(0.25)
  expect(key.value('backdrop.veil')).toBeLessThan(1)
  expect(veil(0.04, -9).value('backdrop.veil')).toBeLessThan(0.15)
})

test('loss against a plain dish at the same distance: the meter says so when the modifier is swapped', () => {
  const place = { az: 0, el: 0, d: 1.5 }
  const of = (kind: string) => take(setOf([lamp('A', { ...place, modifier: defaultModifier(kind) })], fixed))
  const [dish, umbrella] = [of('dish'), of('white-umbrella')]
  const metered = stopsBetween(dish.value('source.A.alone'), umbrella.value('source.A.alone'))
  // The dish of 18 cm falls off a little as the cheek lies 2° beside its axis; both are metered over the same skin.
  expect(Math.abs(umbrella.value('source.A.loss') - metered)).toBeLessThan(0.1)
  expect(dish.readings.some(({ id }) => id === 'source.A.loss')).toBe(false)
})

test('an umbrella tells of its shaft, a box has none', () => {
  const of = (kind: string) => take(setOf([lamp('A', { modifier: defaultModifier(kind) })])).readings
  const told = (kind: string) => of(kind).filter(({ id }) => id.startsWith('source.A.shaft.')).length
  expect([told('silver-umbrella'), told('white-umbrella'), told('softbox')]).toEqual([3, 2, 0])
})
