import { expect, test } from 'vitest'
import {
  firstSitting,
  movePanel,
  moveSource,
  type PlaceLandmarks,
  setCamera,
  setSitter,
  setSourcePlace,
} from '../../src/sitting'
import { moveName, moveTold, putBackName } from '../../src/ui/drawing/step-names'

/** A head of plain numbers at the place of the first sitter's: only the relation to it counts here. */
const marks: PlaceLandmarks = {
  eyePoint: [0, 1.2, 0],
  cheekLeft: [0.05, 1.16, 0],
  cheekRight: [-0.05, 1.16, 0],
  crown: [0, 1.32, -0.08],
}
const before = firstSitting()
const [key] = before.sources
const source = { type: 'source', id: key.id } as const
const said = moveName(source, marks, 'metres')

test('a source goes round, up, nearer, in those words and with where it is now', () => {
  expect(said(before, setSourcePlace(before, key.id, { azimuthFromLensDeg: -50 }, marks))).toBe('A round to 50° left')
  const [x, , z] = key.centreM
  expect(said(before, moveSource(before, key.id, [x, 2.1, z]))).toMatch(
    /^A raised to \d+° up, 2\.10 m high, \d+ cm farther$/,
  )
})

test('nearer and farther by the tape', () => {
  const at = (tapeM: number) => setSourcePlace(before, key.id, { tapeM, elevationDeg: 0.1 }, marks)
  expect(said(at(1), at(0.95))).toBe('A 5 cm nearer')
  expect(said(at(1), at(2.5))).toBe('A 1.50 m farther')
})

test('nearer at the angle that it had: the height that went with it is not what was done', () => {
  const at = (tapeM: number) => setSourcePlace(before, key.id, { tapeM, elevationDeg: 35 }, marks)
  expect(said(at(1), at(0.7))).toBe('A 30 cm nearer at 35° up')
})

test('a stand that is slid at its height is steeper nearer by, and flatter farther off: told from 5° on', () => {
  const eye = marks.eyePoint[1]
  // tan 35° = 0.70021: so high at 1 m; at 0.5 m that is atan 1.40042 = 54.5°, at 1.1 m 32.5° (closed form).
  const at = (z: number) => moveSource(before, key.id, [0, eye + 0.70021, z])
  expect(said(at(1), at(0.5))).toMatch(/^A \d+ cm nearer, 19° steeper, as its height stayed$/)
  expect(said(at(0.5), at(1))).toMatch(/^A \d+ cm farther, 19° flatter, as its height stayed$/)
  expect(said(at(1), at(1.1))).toMatch(/^A \d+ cm farther$/)
})

test('panels and camera go along the axes of the room, the longest way first; lengths in the reader’s units', () => {
  const [panel] = before.panels
  const [x, y, z] = panel.centreM
  const after = movePanel(before, panel.id, [x + 0.1, y, z - 0.3])
  expect(moveName({ type: 'panel', id: panel.id }, marks, 'metres')(before, after)).toBe(
    'white panel 30 cm from the lens, 10 cm right',
  )
  const [cx, cy, cz] = before.camera.positionM
  const back = setCamera(before, { positionM: [cx, cy, cz + 0.3048] })
  expect(moveName({ type: 'camera' }, marks, 'feet')(before, back)).toBe('camera 1′ 0″ back')
})

test('what turns says to where; what is put back says so; what did not move still has a name', () => {
  const [sitter] = before.sitters
  const turned = setSitter(before, sitter.id, { headTurnDeg: -20 })
  expect(moveName({ type: 'nose', id: sitter.id }, marks, 'metres')(before, turned)).toBe('head of sitter to 20° left')
  expect(putBackName(before, source)).toBe('A put back')
  expect(said(before, before)).toBe('A moved')
})

test('in full a move tells old and new as the controls write them, the number that went the most steps first', () => {
  const at = (place: Parameters<typeof setSourcePlace>[2]) => setSourcePlace(before, key.id, place, marks)
  const from = at({ tapeM: 1.2, elevationDeg: 35, azimuthFromLensDeg: 45 })
  const to = setSourcePlace(from, key.id, { tapeM: 0.6 }, marks)
  // Its centre comes lower as it comes nearer along a slanting tape: that is the second number.
  expect(moveTold(source, marks, 'metres')(from, to).inFull).toBe('A tape: 1.20 m to 0.60 m, and 1 more number')
  expect(moveTold(source, marks, 'feet')(from, to).inFull).toBe('A tape: 3′ 11″ to 2′ 0″, and 1 more number')
  const round = setSourcePlace(from, key.id, { azimuthFromLensDeg: -20 }, marks)
  expect(moveTold(source, marks, 'metres')(from, round).inFull).toMatch(/^A round: 45° right to 20° left/)
  const [sitter] = before.sitters
  const turned = setSitter(before, sitter.id, { headTurnDeg: -20 })
  expect(moveTold({ type: 'nose', id: sitter.id }, marks, 'metres')(before, turned, ', 1 more with it').inFull).toMatch(
    /^sitter head: 15° right to 20° left, 1 more with it$/,
  )
  expect(moveTold(source, marks, 'metres')(from, from)).toEqual({ name: 'A moved' })
})
