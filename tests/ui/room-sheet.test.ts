import { expect, test } from 'vitest'
import {
  firstSitting,
  readSitting,
  roomAboutX,
  type Sitting,
  setRoom,
  setRoomAboutX,
  writeSitting,
} from '../../src/sitting'
import { roomSheet } from '../../src/ui/controls/set-sheets'
import { parseWithin } from '../../src/ui/values'

/** Walls by their places, straight from the document: the floor's middle, and half of it to each side. */
const walls = ({ room: { xM, zM, widthM, depthM } }: Sitting) => ({
  right: xM + widthM / 2,
  left: xM - widthM / 2,
  behind: zM - depthM / 2,
  front: zM + depthM / 2,
})

const rowsOf = (sitting: Sitting) => roomSheet(sitting.room).groups.flatMap(({ rows }) => rows)
function typed(sitting: Sitting, label: string, text: string): Sitting {
  const row = rowsOf(sitting).find((one) => one.kind === 'number' && one.label === label)
  if (row?.kind !== 'number') throw new Error(`no row ${label}`)
  const parsed = parseWithin(row.quantity, text, row.range, 'metres')
  if (!parsed.ok) throw new Error(parsed.message)
  return row.change(sitting, parsed.value)
}

test('a room of a printed sheet is typed in: 9 × 12 m, X 4.50 m from the wall at camera right, 3.50 m from that behind', () => {
  let room = firstSitting()
  for (const [label, text] of [
    ['wide', '9'],
    ['deep', '12'],
    ['X from the wall behind', '350 cm'],
    ['X from the wall at camera right', '4.5 m'],
  ] as const)
    room = typed(room, label, text)
  // X stands at 0, 0 (S9): the walls themselves are as far from it as a tape says.
  expect(walls(room).behind).toBeCloseTo(-3.5, 12)
  expect(walls(room).right).toBeCloseTo(4.5, 12)
  expect(walls(room).left).toBeCloseTo(-4.5, 12)
  expect(walls(room).front).toBeCloseTo(8.5, 12)
  expect('sitting' in readSitting(writeSitting(room))).toBe(true)
})

test('wider and deeper leave the wall behind and that at camera right where they are; outdoors ground grows all round', () => {
  const before = setRoomAboutX(firstSitting(), { widthM: 4, depthM: 5, rightM: 1.2, behindM: 2 })
  const after = walls(typed(typed(before, 'wide', '6'), 'deep', '9'))
  expect(after.right).toBeCloseTo(1.2, 12)
  expect(after.behind).toBeCloseTo(-2, 12)
  const out = setRoom(before, { outdoors: true })
  const { xM, zM } = typed(out, 'deep', '9').room
  expect([xM, zM]).toEqual([out.room.xM, out.room.zM])
  expect(rowsOf(out).some(({ kind, id }) => kind === 'number' && id === 'behindM')).toBe(false)
})

test('walls do not go past X: less wide or deep than its distance is refused with the range', () => {
  const set = setRoomAboutX(firstSitting(), { widthM: 9, depthM: 12, rightM: 4.5, behindM: 3.5 })
  expect(() => typed(set, 'deep', '3')).toThrow('expected 3.50 m to 40.00 m, got 3.00 m')
  expect(() => typed(set, 'X from the wall behind', '13')).toThrow('expected 0.00 m to 12.00 m, got 13.00 m')
  expect(roomAboutX(set.room)).toMatchObject({ rightM: 4.5, behindM: 3.5 })
})
