import { expect, test } from 'vitest'
import { checkSitting, firstSitting, type Sitting } from '../../src/sitting'
import { wearRows } from '../../src/ui/controls/wear-rows'

const choices = (sitting: Sitting) =>
  wearRows(sitting.sitters[0]).map((row) => {
    if (row.kind !== 'choice') throw new Error(`${row.id}: expected a choice, got ${row.kind}`)
    return row
  })
const choose = (sitting: Sitting, id: string, value: string) =>
  choices(sitting)
    .find((row) => row.id === id)!
    .change(sitting, value)

test('a sitter who says nothing has short hair and no headwear, and no tone of it to choose', () => {
  expect(choices(firstSitting()).map(({ id, value }) => [id, value])).toEqual([
    ['hairCut', 'short'],
    ['headwear', 'none'],
  ])
})

test('every choice makes a sitting that breaks no rule; headwear brings its tone, and keeps it when taken off and put on', () => {
  const first = firstSitting()
  for (const row of choices(first))
    for (const { value } of row.choices) expect(checkSitting(row.change(first, value))).toEqual([])
  const black = choose(choose(first, 'headwear', 'hat'), 'headwearTone', 'black')
  expect(black.sitters[0]).toMatchObject({ headwear: 'hat', headwearTone: 'black' })
  const again = choose(choose(black, 'headwear', 'none'), 'headwear', 'covering')
  expect(choices(again).at(-1)).toMatchObject({ id: 'headwearTone', value: 'black' })
})
