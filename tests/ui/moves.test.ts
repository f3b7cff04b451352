import { describe, expect, test } from 'vitest'
import {
  addSitter,
  EditRefused,
  firstSitting,
  moveSource,
  nearestTapeM,
  type PlaceLandmarks,
  type Sitting,
  type Source,
  sourcePlace,
  stopAt,
} from '../../src/sitting'
import { distance } from '../../src/space'
import { drag, nudge, type Plane, putBack } from '../../src/ui/drawing/moves'
import { goesRound } from '../../src/ui/drawing/slide'
import { together } from '../../src/ui/drawing/together'

/** A head of plain numbers at the place of the first sitter's: only the relation to it counts here. */
const marks: PlaceLandmarks = {
  eyePoint: [0, 1.2, 0],
  cheekLeft: [0.05, 1.16, 0],
  cheekRight: [-0.05, 1.16, 0],
  crown: [0, 1.32, -0.08],
}
const plan: Plane = { kind: 'plan' }
const sitting = firstSitting()
const [key] = sitting.sources
const target = { type: 'source', id: key.id } as const
const placeOf = (s: typeof sitting) => sourcePlace(s.sources[0], s.camera, marks)

const slides = { snaps: false, keepsAngle: false, halfFaceM: 0 }
const keeps = { ...slides, keepsAngle: true }

test('on the plan a source keeps its angle up and its aim; where its height is kept, that', () => {
  const before = placeOf(sitting)
  const away = drag(sitting, target, [1.4, 1.4], plan, undefined, marks)
  expect(placeOf(away).elevationDeg).toBeCloseTo(before.elevationDeg, 9)
  expect(away.sources[0].centreM[1]).toBeGreaterThan(key.centreM[1] + 0.2)
  const { centreM, aimM } = drag(sitting, target, [-0.5, 1.25], plan, slides, marks).sources[0]
  expect(centreM).toEqual([-0.5, key.centreM[1], 1.25])
  expect(aimM).toBe(key.aimM)
})

test('where a source aims is dragged on either drawing and nudged by keys, and the source stays', () => {
  const aim = { type: 'aim', id: key.id } as const
  const onPlan = drag(sitting, aim, [0.3, 0.2], plan).sources[0]
  expect(onPlan.aimM).toEqual([0.3, key.aimM[1], 0.2])
  expect(onPlan.centreM).toBe(key.centreM)
  const level = Math.hypot(key.centreM[0], key.centreM[2])
  const along = [key.centreM[0] / level, key.centreM[2] / level] as const
  const before = key.aimM[0] * along[0] + key.aimM[2] * along[1]
  const raised = drag(sitting, aim, [before, -1.5], { kind: 'elevation', along }).sources[0]
  expect(raised.aimM[1]).toBeCloseTo(1.5, 9)
  const nudged = nudge(sitting, aim, 'ArrowRight', false, plan, marks)!.sources[0]
  expect(nudged.aimM[0] - key.aimM[0]).toBeCloseTo(0.05, 9)
  expect(nudged.centreM).toBe(key.centreM)
})

test('snapped, a source stands on 5° and 5 cm of tape, on the elevation on 5° up too', () => {
  const before = placeOf(sitting)
  for (const keepsAngle of [false, true]) {
    const snapped = drag(sitting, target, [-0.83, 0.71], plan, { ...slides, snaps: true, keepsAngle }, marks)
    const { azimuthFromLensDeg, elevationDeg, tapeM } = placeOf(snapped)
    expect(azimuthFromLensDeg).toBeCloseTo(-50, 6)
    expect(tapeM / 0.05).toBeCloseTo(Math.round(tapeM / 0.05), 4)
    if (keepsAngle) expect(elevationDeg).toBeCloseTo(before.elevationDeg, 6)
    else expect(snapped.sources[0].centreM[1]).toBe(key.centreM[1])
  }
  const side = { kind: 'elevation', along: [0, 1] } as const
  const { elevationDeg, tapeM } = placeOf(drag(sitting, target, [0.77, -1.93], side, { ...keeps, snaps: true }, marks))
  expect(elevationDeg / 5).toBeCloseTo(Math.round(elevationDeg / 5), 6)
  expect(tapeM / 0.05).toBeCloseTo(Math.round(tapeM / 0.05), 6)
})

test('with its direction kept only the distance of a source goes with the hand, as far as that lies on the way', () => {
  const before = placeOf(sitting)
  for (const keepsAngle of [false, true]) {
    for (const to of [
      [1.4, 1.1],
      [1.1, 1.6],
    ] as const) {
      const moved = drag(sitting, target, to, plan, { ...slides, keepsAngle, keepsRound: true }, marks)
      expect(placeOf(moved).azimuthFromLensDeg).toBeCloseTo(before.azimuthFromLensDeg, 9)
      // The foot of the perpendicular from the hand to the way: closed form.
      const [ex, , ez] = marks.eyePoint
      const [wx, wz] = [key.centreM[0] - ex, key.centreM[2] - ez]
      const along = ((to[0] - ex) * wx + (to[1] - ez) * wz) / Math.hypot(wx, wz)
      const [x, , z] = moved.sources[0].centreM
      expect(Math.hypot(x - ex, z - ez)).toBeCloseTo(along, 6)
    }
    const snapped = drag(
      sitting,
      target,
      [1.4, 1.1],
      plan,
      { ...slides, snaps: true, keepsAngle, keepsRound: true },
      marks,
    )
    const { azimuthFromLensDeg, tapeM } = placeOf(snapped)
    expect(azimuthFromLensDeg).toBeCloseTo(before.azimuthFromLensDeg, 9)
    expect(tapeM / 0.05).toBeCloseTo(Math.round(tapeM / 0.05), 4)
  }
})

test('a hand goes round only once it is more than 3° aside of where it took the source, seen from the eyes', () => {
  const [ex, , ez] = marks.eyePoint
  /** A point of the plan so far round from the camera's side and so far out: closed form. */
  const at = (deg: number, m: number) =>
    [ex + m * Math.sin((deg * Math.PI) / 180), ez + m * Math.cos((deg * Math.PI) / 180)] as const
  for (const from of [45, -30, 179.5])
    for (const [by, isRound] of [
      [0, false],
      [2.9, false],
      [-2.9, false],
      [3.1, true],
      [-3.1, true],
      [180, true],
    ] as const)
      expect(goesRound(at(from, 1), at(from + by, 0.4), marks), `${from} + ${by}`).toBe(isRound)
})

describe('ceiling, floor and face stop a source', () => {
  const half = 0.475
  const how = { ...keeps, halfFaceM: half }
  /** Top and lower edge of a face of twice half a height that looks at its aim: it leans by the angle of its axis. */
  const edges = ({ centreM: [x, y, z], aimM }: Source) => {
    const lean = Math.atan2(aimM[1] - y, Math.hypot(aimM[0] - x, aimM[2] - z))
    return { top: y + half * Math.cos(lean), low: y - half * Math.cos(lean) }
  }
  const { heightM } = sitting.room

  test('on the way out at its angle its top edge comes to the ceiling, round the sitter it goes on', () => {
    const out = drag(sitting, target, [4, 4], plan, how, marks)
    expect(edges(out.sources[0]).top).toBeCloseTo(heightM, 5)
    expect(placeOf(out).elevationDeg).toBeCloseTo(placeOf(sitting).elevationDeg, 6)
    expect(stopAt(out.sources[0], half, out, marks)).toBe('ceiling')
    const round = drag(out, target, [-4, 4], plan, how, marks)
    expect(placeOf(round).azimuthFromLensDeg).toBeCloseTo(-45, 0)
    expect(edges(round.sources[0]).top).toBeCloseTo(heightM, 5)
    const nearer = drag(round, target, [-0.6, 0.6], plan, how, marks)
    expect(nearer.sources[0].centreM.slice(0, 1)).toEqual([-0.6])
    expect(stopAt(nearer.sources[0], half, nearer, marks)).toBeNull()
  })

  test('from below its lower edge comes to the floor; on the elevation both stop it', () => {
    const low = moveSource(sitting, key.id, [0.6, 0.9, 0.6])
    const out = drag(low, target, [3, 3], plan, how, marks)
    expect(edges(out.sources[0]).low).toBeCloseTo(0, 5)
    const side = { kind: 'elevation', along: [0, 1] } as const
    expect(edges(drag(sitting, target, [0.7, -5], side, how, marks).sources[0]).top).toBeCloseTo(heightM, 5)
    expect(edges(drag(sitting, target, [0.7, 1], side, how, marks).sources[0]).low).toBeCloseTo(0, 5)
    // 0.5 m at a time.
    const up = (s: Sitting) => nudge(s, target, 'ArrowUp', true, side, marks, how)!
    expect(edges(up(up(up(up(sitting)))).sources[0]).top).toBeCloseTo(heightM, 5)
  })

  test('outdoors there is no ceiling, and what was through it may come back but go no higher', () => {
    const outdoors = { ...sitting, room: { ...sitting.room, outdoors: true } }
    expect(drag(outdoors, target, [4, 4], plan, how, marks).sources[0].centreM[1]).toBeGreaterThan(heightM)
    const [x, , z] = key.centreM
    const through = moveSource(sitting, key.id, [x, heightM + 0.3, z])
    const higher = drag(through, target, [3, 3], plan, how, marks)
    expect(edges(higher.sources[0]).top).toBeCloseTo(edges(through.sources[0]).top, 5)
    expect(drag(through, target, [x / 2, z / 2], plan, how, marks).sources[0].centreM[1]).toBeLessThan(heightM)
  })

  test('no hand puts a lamp into the face: it stops a lamp’s length and 10 cm before it', () => {
    const near = drag(sitting, target, [0.05, 0.08], plan, how, marks)
    expect(placeOf(near).tapeM).toBeCloseTo(nearestTapeM(key.modifier), 4)
    expect(placeOf(near).elevationDeg).toBeCloseTo(placeOf(sitting).elevationDeg, 4)
    expect(stopAt(near.sources[0], half, near, marks)).toBe('face')
    const closer = nudge(near, target, 'ArrowUp', false, plan, marks, how)!
    expect(placeOf(closer).tapeM).toBeCloseTo(nearestTapeM(key.modifier), 4)
  })
})

test('on the elevation the sitter rises and sinks within what a document holds, the backdrop goes to and fro, and both are put back', () => {
  const side: Plane = { kind: 'elevation', along: [0, 1] }
  const [{ id, eyeHeightM }] = sitting.sitters
  const sitter = { type: 'sitter', id } as const
  const raised = drag(sitting, sitter, [0, -1.5], side)
  expect(raised.sitters[0].eyeHeightM).toBe(1.5)
  expect(drag(sitting, sitter, [0, -9], side).sitters[0].eyeHeightM).toBe(2.2)
  expect(nudge(sitting, sitter, 'ArrowUp', false, side, marks)!.sitters[0].eyeHeightM).toBeCloseTo(eyeHeightM + 0.05, 9)
  expect(nudge(sitting, sitter, 'ArrowRight', false, side, marks)).toBeNull()
  expect(putBack(raised, sitting, sitter, side).sitters).toEqual(sitting.sitters)
  const backdrop = { type: 'backdrop' } as const
  const far = drag(sitting, backdrop, [-2.4, -1], side)
  expect(far.backdrop!.distanceM).toBeCloseTo(2.4, 9)
  expect(far.backdrop!.heightM).toBe(sitting.backdrop!.heightM)
  expect(putBack(far, sitting, backdrop, side).backdrop).toEqual(sitting.backdrop)
})

test('on the elevation a drag straight up changes the height alone', () => {
  const level = Math.hypot(key.centreM[0], key.centreM[2])
  const along = [key.centreM[0] / level, key.centreM[2] / level] as const
  const { centreM } = drag(sitting, target, [level, -2.1], { kind: 'elevation', along }).sources[0]
  expect(centreM[1]).toBeCloseTo(2.1, 9)
  // Dragged places snap to the centimetre: half of it in x and in z.
  expect(Math.hypot(centreM[0] - key.centreM[0], centreM[2] - key.centreM[2])).toBeLessThanOrEqual(0.0071)
})

test('where the height is kept, keys take a source nearer at its height, by the same tape', () => {
  const nearer = nudge(sitting, target, 'ArrowUp', false, plan, marks, slides)!
  expect(nearer.sources[0].centreM[1]).toBe(key.centreM[1])
  expect(placeOf(nearer).tapeM).toBeCloseTo(placeOf(sitting).tapeM - 0.05, 6)
})

test.each([
  ['ArrowRight', false, 1],
  ['ArrowLeft', false, -1],
  ['ArrowRight', true, 10],
])('%s (Shift %s) goes %d° round and leaves elevation and tape', (name, shift, degrees) => {
  const before = placeOf(sitting)
  const after = placeOf(nudge(sitting, target, name, shift, plan, marks)!)
  expect(after.azimuthFromLensDeg - before.azimuthFromLensDeg).toBeCloseTo(degrees, 9)
  expect(after.elevationDeg).toBeCloseTo(before.elevationDeg, 9)
  expect(after.tapeM).toBeCloseTo(before.tapeM, 9)
})

test.each([
  ['ArrowUp', false, -0.05],
  ['ArrowDown', false, 0.05],
  ['ArrowDown', true, 0.5],
])('%s (Shift %s) changes the tape by %d m', (name, shift, metres) => {
  const before = placeOf(sitting)
  const after = placeOf(nudge(sitting, target, name, shift, plan, marks)!)
  expect(after.tapeM - before.tapeM).toBeCloseTo(metres, 9)
  expect(after.azimuthFromLensDeg).toBeCloseTo(before.azimuthFromLensDeg, 9)
})

test('other keys are not ours', () => {
  expect(nudge(sitting, target, 'a', false, plan, marks)).toBeNull()
})

test('what else is in hand goes along by as much; a turn takes nothing along', () => {
  const [panel] = sitting.panels
  const after = drag(sitting, target, [-0.5, 1.25], plan)
  const both = together(sitting, after, target, [panel!.id, 'camera', 'room'])
  const by = after.sources[0].centreM.map((value, axis) => value - key.centreM[axis]!)
  const moved = (from: readonly number[]) => from.map((value, axis) => value + by[axis]!)
  expect(both.panels[0]!.centreM).toEqual(moved(panel!.centreM))
  expect(both.camera.positionM).toEqual(moved(sitting.camera.positionM))
  const nose = { type: 'nose', id: 'sitter' } as const
  const turned = drag(sitting, nose, [1, 1], plan)
  expect(together(sitting, turned, nose, [panel!.id])).toBe(turned)
})

test('the first sitter, from whom the set is measured, lets no group go; another sitter goes along on the floor', () => {
  const after = drag(sitting, target, [-0.5, 1.25], plan)
  expect(() => together(sitting, after, target, ['camera', 'sitter'])).toThrow(EditRefused)
  const { sitting: two, id } = addSitter(sitting)
  const [, second] = two.sitters
  const moved = together(two, drag(two, target, [-0.5, 1.25], plan), target, [id]).sitters[1]!
  expect(moved.xM - second!.xM).toBeCloseTo(-0.5 - key.centreM[0], 9)
  expect(moved.zM - second!.zM).toBeCloseTo(1.25 - key.centreM[2], 9)
  expect(moved.eyeHeightM).toBe(second!.eyeHeightM)
  expect(() => together(two, drag(two, target, [-20, 1.25], plan), target, [id])).toThrow(EditRefused)
})

test('the head turns after the hand, at most 90°', () => {
  const nose = { type: 'nose', id: 'sitter' } as const
  expect(drag(sitting, nose, [1, 1], plan).sitters[0].headTurnDeg).toBe(45)
  expect(drag(sitting, nose, [-1, 0], plan).sitters[0].headTurnDeg).toBe(-90)
  expect(drag(sitting, nose, [-1, -1], plan).sitters[0].headTurnDeg).toBe(-90)
  expect(nudge(sitting, nose, 'ArrowRight', true, plan, marks)!.sitters[0].headTurnDeg).toBe(25)
})

test('the backdrop moves along the lens axis only, and stays behind the sitter', () => {
  expect(drag(sitting, { type: 'backdrop' }, [0.7, -2.2], plan).backdrop?.distanceM).toBeCloseTo(2.2, 9)
  expect(drag(sitting, { type: 'backdrop' }, [0, 1], plan).backdrop?.distanceM).toBe(0.15)
})

test('a double-click puts a thing back where the opened sitting has it', () => {
  const moved = drag(sitting, target, [2, 2], plan)
  expect(distance(moved.sources[0].centreM, key.centreM)).toBeGreaterThan(1)
  expect(putBack(moved, sitting, target).sources[0].centreM).toEqual(key.centreM)
  const without = { ...sitting, sources: [] }
  expect(putBack(moved, without, target)).toBe(moved)
})

describe('a double-click on a meter', () => {
  const cheek = sitting.meterPlaces.find(({ at }) => 'landmark' in at)!
  const meter = { type: 'meter', id: cheek.id } as const

  test('holds it again on what it was held on, facing as it did', () => {
    const square = { ...sitting, meterPlaces: [{ ...cheek, facing: 'square' as const }] }
    const moved = drag(
      { ...square, meterPlaces: [{ ...cheek, at: { pointM: [1, 1, 1] }, facing: 'lens' }] },
      meter,
      [2, 2],
      plan,
    )
    expect(moved.meterPlaces[0]!.at).toHaveProperty('pointM', [2, 1, 2])
    expect(putBack(moved, square, meter)).toEqual(square)
  })

  test('is refused in words where the sitter that it was held on is gone', () => {
    const at = { sitterId: 'gone', landmark: 'noseTip' }
    const opened = { ...sitting, meterPlaces: [{ ...cheek, at }] }
    expect(() => putBack(sitting, opened, meter)).toThrow(EditRefused)
  })

  test('leaves one alone that the opened sitting does not have', () => {
    expect(putBack(sitting, { ...sitting, meterPlaces: [] }, meter)).toBe(sitting)
  })
})
