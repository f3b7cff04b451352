import { expect, test } from 'vitest'
import {
  addBackdropGrid,
  addFaceGrid,
  addMeterPlace,
  EditRefused,
  firstSitting,
  mirrorSet,
  moveMeter,
  readSitting,
  removeGrid,
  removeThing,
  renameMeter,
  type Sitting,
  setBackdrop,
  setMeterPlace,
  setOwnMeter,
  writeSitting,
} from '../../src/sitting'

const first = firstSitting()
const ofGrid = (sitting: Sitting, grid: string) => sitting.meterPlaces.filter((place) => place.grid === grid)

test('S8: a grid is one edit: 9 and 15 discs flat on the paper within the frame, 6 domes on the face', () => {
  const three = addBackdropGrid(first, 3).sitting
  expect(ofGrid(three, 'backdrop 3 × 3')).toHaveLength(9)
  const five = addBackdropGrid(three, 5).sitting
  expect(ofGrid(five, 'backdrop 5 × 3')).toHaveLength(15)
  expect(ofGrid(five, 'backdrop 3 × 3')).toEqual(ofGrid(three, 'backdrop 3 × 3'))
  const face = addFaceGrid(five).sitting
  expect(ofGrid(face, 'face, six places')).toHaveLength(6)
  // Made again, not twice; taken away as it was.
  expect(addBackdropGrid(three, 3).sitting.meterPlaces).toHaveLength(three.meterPlaces.length)
  expect(removeGrid(three, 'backdrop 3 × 3').meterPlaces).toEqual(first.meterPlaces)
  expect('sitting' in readSitting(writeSitting(face))).toBe(true)
})

test('a grid on the backdrop lies in what the lens sees of it: similar triangles', () => {
  const { camera, backdrop } = first
  const { sitting } = addBackdropGrid(
    { ...first, camera: { ...camera, positionM: [0, 1.2, 1.5], aimM: [0, 1.2, 0] } },
    3,
  )
  const shares = ofGrid(sitting, 'backdrop 3 × 3').map(({ at }) => ('acrossShare' in at ? at : null)!)
  // Half the frame on the paper: 12 mm / f · (1.5 m + distance); the outer columns at two thirds of it.
  const half = (camera.sensorWidthMm / 2 / camera.focalLengthMm) * (1.5 + backdrop!.distanceM)
  const across = Math.min(1, half / (backdrop!.widthM / 2))
  expect(shares[2]!.acrossShare).toBeCloseTo((2 / 3) * across, 2)
  expect(shares[0]!.acrossShare).toBeCloseTo((-2 / 3) * across, 2)
})

const refused = (edit: () => unknown): EditRefused => {
  try {
    edit()
  } catch (error) {
    if (error instanceof EditRefused) return error
    throw error
  }
  throw new Error('the edit was not refused')
}

test('S15: what no meter can do gets a clear word and changes nothing', () => {
  const { sitting, id } = addMeterPlace(first)
  const before = structuredClone(sitting)
  const head = () => 'the sitter'
  const bad: [() => unknown, RegExp][] = [
    [() => moveMeter(sitting, id, [Number.NaN, 1, 1]), /meter|within 30 m|number/],
    [() => moveMeter(sitting, id, [0, Number.POSITIVE_INFINITY, 1]), /within 30 m|number/],
    [() => moveMeter(sitting, id, [0, 1, 99]), /within 30 m|number/],
    [() => moveMeter(sitting, id, [0, 1.2, 0], head), /inside the sitter/],
    [() => setMeterPlace(sitting, id, { facing: { sourceId: 'nobody' } }), /id of a source/],
    [() => setMeterPlace(sitting, id, { facing: 'square' }), /square/],
    [() => setMeterPlace(sitting, id, { at: { acrossShare: 1.5, upShare: 0 } }), /-1 to 1|a number/],
    [() => setMeterPlace(sitting, id, { at: { sitterId: 'sitter', landmark: 'tail' } }), /a landmark/],
    [
      () => setMeterPlace(sitting, id, { facing: { aimM: [0, 1.14, 0.25] }, at: { pointM: [0, 1.14, 0.25] } }),
      /0.01 m/,
    ],
    [() => setMeterPlace(sitting, id, { receptor: 'sieve' as never }), /shaded dome/],
    [() => setOwnMeter(sitting, { domeC: 0 }), /200 to 450/],
    [() => setOwnMeter(sitting, { domeC: Number.NaN }), /200 to 450/],
    [() => addBackdropGrid(setBackdrop(sitting, null), 3), /backdrop/],
  ]
  for (const [edit, words] of bad) expect(refused(edit).message).toMatch(words)
  expect(sitting).toEqual(before)
})

test('what a meter was held on or turned to goes: the meter goes with it, or turns to the key', () => {
  const [source] = first.sources
  const made = addMeterPlace(addBackdropGrid(first, 3).sitting, {
    facing: { sourceId: source!.id },
    sourceIds: [source!.id],
  })
  expect(ofGrid(setBackdrop(made.sitting, null), 'backdrop 3 × 3')).toHaveLength(0)
  const after = removeThing(made.sitting, source!.id).meterPlaces.find(({ id }) => id === made.id)!
  expect(after.facing).toBe('light')
  // It counted that one alone: it counts none, rather than all the others.
  expect(after.sourceIds).toEqual([])
})

test('in the mirror a grid is named by where it then lies: columns from camera left, cheeks by their side', () => {
  const grids = addFaceGrid(addBackdropGrid(first, 5).sitting).sitting
  const named = (of: Sitting, name: string) => of.meterPlaces.find((place) => place.name === name)!.at
  const after = mirrorSet(grids)
  const across = (of: Sitting, name: string): number => {
    const at = named(of, name)
    return 'acrossShare' in at ? at.acrossShare : Number.NaN
  }
  for (const row of ['bottom', 'middle', 'top'])
    for (const column of [1, 2, 3, 4])
      expect(across(after, `backdrop ${row} ${column}`)).toBeLessThan(across(after, `backdrop ${row} ${column + 1}`))
  // The figure's right cheek is at camera left as it faces the lens.
  expect(named(after, 'cheek at camera left')).toMatchObject({ landmark: 'cheekRight' })
  expect(named(after, 'cheek at camera right')).toMatchObject({ landmark: 'cheekLeft' })
  expect(mirrorSet(after)).toEqual(grids)
})

test('mirrored twice, every way of holding a meter comes back', () => {
  const free = addMeterPlace(addBackdropGrid(first, 5).sitting, { facing: { aimM: [0.4, 1, 2] } }).sitting
  expect(mirrorSet(mirrorSet(free))).toEqual(free)
  expect(mirrorSet(free).meterPlaces.at(-1)!.facing).toEqual({ aimM: [-0.4, 1, 2] })
})

test('a meter place is renamed; a blank name and that of another place are refused', () => {
  const one = addMeterPlace(first)
  const two = addMeterPlace(one.sitting)
  expect(renameMeter(two.sitting, one.id, ' left ear ').meterPlaces.at(-2)!.name).toBe('left ear')
  const taken = two.sitting.meterPlaces.at(-1)!.name
  expect(refused(() => renameMeter(two.sitting, one.id, '  ')).message).toMatch(/expected a name, got nothing/)
  expect(refused(() => renameMeter(two.sitting, one.id, taken)).message).toMatch(/no other meter has/)
})
