import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { addModifier, emptyKit } from '../../src/kit'
import { drawElevation, drawPlan } from '../../src/paper'
import { assembleRig } from '../../src/rig'
import { firstSitting, type PlaceLandmarks, type Sitting, sourcePlace } from '../../src/sitting'
import { sheetOf } from '../../src/ui/controls/sheet'
import { swapKind } from '../../src/ui/controls/swap-kind'
import { nudge } from '../../src/ui/drawing/moves'
import { moveName } from '../../src/ui/drawing/step-names'
import { STAND_IN } from '../rig/stand-in'

const before = firstSitting()
const { id, centreM } = before.sources[0]!
const sunny = swapKind(before, id, 'sun')
const marks: PlaceLandmarks = {
  ...{ eyePoint: [0, 1.2, 0], cheekLeft: [0.06, 1.17, 0.02], cheekRight: [-0.06, 1.17, 0.02] },
  crown: [0, 1.32, -0.08],
}

test('a source that becomes the sun keeps its mark, has no dial, and is outdoors', () => {
  expect(sunny.sources[0]).toMatchObject({ centreM, modifier: { kind: 'sun' }, head: { powerStops: 0 } })
  expect(sunny.room.outdoors).toBe(true)
  const rows = sheetOf({ sitting: sunny, marks, exposure: null }, id)!.groups.flatMap((group) => group.rows)
  const ids = rows.map((row) => row.id)
  expect(ids).toEqual(expect.arrayContaining(['round', 'up', 'illuminanceLx', 'colour']))
  for (const missing of ['tape', 'height', 'power', 'head']) expect(ids).not.toContain(missing)
})

test('a modifier of the kit goes where one of its kind is: at the lens, off it again, outdoors', () => {
  let kit = emptyKit()
  const entryOf = (kind: string) => {
    const added = addModifier(kit, { ...before.sources[0]!, modifier: defaultModifier(kind) }, kind)
    kit = added.kit
    return added.id
  }
  const [ring, box, sun] = [entryOf('ring-flash'), entryOf('softbox'), entryOf('sun')]
  const taken = (sitting: Sitting, to: string) => {
    const fold = sheetOf({ sitting, marks, exposure: null, kit }, id)!
      .groups.flatMap((group) => group.rows)
      .find((row) => row.id === 'kit')
    const rows = fold?.kind === 'fold' ? fold.rows : []
    const row = rows.find((each) => each.id === 'kit modifier')
    return row?.kind === 'choice' ? row.change(sitting, to) : sitting
  }
  const ringed = taken(before, ring)
  expect(ringed.sources[0]).toMatchObject({ centreM: before.camera.positionM, aimM: before.camera.aimM })
  expect(taken(ringed, box).sources[0]).toMatchObject({ modifier: { kind: 'softbox' }, kit: { modifierId: box } })
  expect(taken(ringed, box).sources[0]!.centreM).not.toEqual(before.camera.positionM)
  expect(taken(before, box).sources[0]!.centreM).toEqual(centreM)
  expect(taken(before, sun)).toMatchObject({ room: { outdoors: true } })
})

test('by keys on the plan the sun goes round and up the sky', () => {
  const target = { type: 'source', id } as const
  const placeOf = (sitting: Sitting) => sourcePlace(sitting.sources[0]!, sitting.camera, marks)
  const nudged = (key: string) => placeOf(nudge(sunny, target, key, true, { kind: 'plan' }, marks)!)
  expect(nudged('ArrowUp').elevationDeg).toBeCloseTo(placeOf(sunny).elevationDeg + 10, 6)
  expect(nudged('ArrowDown').elevationDeg).toBeCloseTo(placeOf(sunny).elevationDeg - 10, 6)
  const raised = nudge(sunny, target, 'ArrowUp', true, { kind: 'plan' }, marks)!
  expect(moveName(target, marks, 'metres')(sunny, raised)).toMatch(/^A up to \d+°$/)
  expect(nudged('ArrowRight').azimuthFromLensDeg).toBeCloseTo(placeOf(sunny).azimuthFromLensDeg + 10, 6)
})

test('a sky has no place to set, no dial and no aim, and no handle on the drawings', () => {
  const sitting = swapKind(before, id, 'overcast-sky')
  const rows = sheetOf({ sitting, marks, exposure: null }, id)!.groups.flatMap((group) => group.rows)
  const ids = rows.map((row) => row.id)
  expect(ids).toEqual(expect.arrayContaining(['around', 'illuminanceLx', 'colour']))
  for (const missing of ['round', 'up', 'tape', 'height', 'power', 'aim-across', 'roll'])
    expect(ids).not.toContain(missing)
  const input = { sitting, rig: assembleRig(sitting, { figure: STAND_IN }), selected: id, units: 'metres' as const }
  for (const drawing of [drawPlan(input), drawElevation(input)]) {
    expect(drawing.handles.filter(({ target }) => target.type === 'source')).toEqual([])
    expect(drawing.bounds.maxX - drawing.bounds.minX).toBeLessThan(12)
    expect(drawing.description).toContain('all round')
  }
})

test('outdoors the room has neither walls nor a ceiling to paint', () => {
  const rows = sheetOf({ sitting: sunny, marks, exposure: null }, 'room')!.groups.flatMap((group) => group.rows)
  expect(rows.map((row) => row.id)).toEqual(['outdoors', 'widthM', 'depthM', 'ground', 'floorReflectance'])
})

test('the drawings show the sun by its mark, within a room’s reach, and its handle moves it', () => {
  const input = {
    sitting: sunny,
    rig: assembleRig(sunny, { figure: STAND_IN }),
    selected: id,
    units: 'metres' as const,
  }
  for (const drawing of [drawPlan(input), drawElevation(input)]) {
    const { minX, maxX, minY, maxY } = drawing.bounds
    expect(Math.max(maxX - minX, maxY - minY)).toBeLessThan(12)
    const [handle] = drawing.handles.filter(({ target }) => target.type === 'source')
    expect(handle!.at[0]).toBeGreaterThan(minX)
    expect(handle!.at[0]).toBeLessThan(maxX)
    for (const shape of drawing.shapes)
      if (shape.kind === 'line' && shape.pencil) for (const [x] of shape.points) expect(Math.abs(x)).toBeLessThan(12)
    expect(JSON.stringify(drawing.shapes)).not.toContain('tape')
  }
})
