import { expect, test } from 'vitest'
import { firstSitting, keepTake, removeThings, setPanel } from '../../src/sitting'
import { nameOf, namesFor } from '../../src/ui/takes/wipe'

const now = keepTake(firstSitting(), 'take 1')
const [panel] = now.panels
const without = { name: 'without the white panel', sitting: removeThings(now, [panel!.id]) }
const inHand = { name: 'with the white panel', sitting: now }

test('a set that is compared without a panel has the names of the comparison on both sides, and not that of a take', () => {
  expect(nameOf(without, now, inHand)).toBe('without the white panel')
  expect(nameOf(null, now, inHand)).toBe('with the white panel')
  expect(nameOf(null, now)).toBe('take 1')
  expect(namesFor(now, { left: without, right: null, inHand })).toEqual([
    'with the white panel',
    'without the white panel',
  ])
})

test('once the set in hand is another one it is no longer called by it', () => {
  const turned = setPanel(now, panel!.id, { turnDeg: 45 })
  expect(nameOf(null, turned, inHand)).toBe('the set in hand')
})
