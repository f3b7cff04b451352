import { expect, test } from 'vitest'
import {
  addCarried,
  addObject,
  addPanel,
  addSource,
  carriedOf,
  checkSitting,
  duplicateThings,
  firstSitting,
  isCarried,
  readCarried,
  removeThings,
  type Sitting,
  writeCarried,
} from '../../src/sitting'

const first = firstSitting()
const { sitting, id: ball } = addObject(addPanel(addSource(first).sitting, 'black').sitting, 'ball')
const [key, other] = sitting.sources
const ids = [key!.id, sitting.panels[0]!.id, ball, 'camera', sitting.sitters[0]!.id]

test('gear goes to another set by text, with what it is unknown of; taken ids and letters become the next free ones', () => {
  const odd = { ...sitting, sources: [{ ...key!, rented: true }, other!] } as Sitting
  const text = writeCarried(carriedOf(odd, ids))
  expect(isCarried(text)).toBe(true)
  const read = readCarried(text)
  if ('problems' in read) throw new Error(JSON.stringify(read.problems))
  const { sitting: filled, ids: made } = addCarried(first, read.carried)
  expect(checkSitting(filled)).toEqual([])
  expect(made).toHaveLength(3)
  expect(filled.sources.map(({ letter }) => letter)).toEqual(['A', 'B'])
  expect(filled.sources[1]).toMatchObject({ rented: true, head: key!.head, aimM: key!.aimM })
  // Not on top of the one that stands there already.
  const [x, y, z] = key!.centreM
  expect(filled.sources[1]!.centreM).toEqual([x + 0.3, y, z])
  const empty = { ...first, sources: [], panels: [] }
  expect(addCarried(empty, read.carried).sitting.sources[0]).toMatchObject({
    letter: 'A',
    id: key!.id,
    centreM: key!.centreM,
  })
})

test('a broken text is told by its place, and other text is nothing of ours', () => {
  const text = writeCarried(carriedOf(sitting, ids)).replace(/"energyJ": \d+/, '"energyJ": "half"')
  const read = readCarried(text)
  expect('problems' in read && read.problems[0]).toMatchObject({ path: 'sources[0].head.energyJ', got: '"half"' })
  expect('problems' in readCarried(text.slice(0, 80))).toBe(true)
  expect(isCarried('f/8 at 1.2 m')).toBe(false)
})

test('copies stand beside their originals; the first sitter and the camera stay when all goes', () => {
  const copied = duplicateThings(sitting, ids)
  expect(copied.ids).toHaveLength(3)
  expect(checkSitting(copied.sitting)).toEqual([])
  const left = removeThings(sitting, [...ids, 'backdrop'])
  expect(checkSitting(left)).toEqual([])
  expect([left.sources.map(({ id }) => id), left.backdrop, left.sitters]).toEqual([[other!.id], null, sitting.sitters])
})
