/** What two tabs do to one kit: laws of sets, by entries that are made up. */
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  addHead,
  addStand,
  changeEntry,
  changesOver,
  emptyKit,
  type Kit,
  readKit,
  removeEntry,
  renameKit,
  writeKit,
} from '../../src/kit'

const kitOf = (text: string): Kit => {
  const result = readKit(text)
  if ('problems' in result) throw new Error('expected a kit')
  return result.kit
}
const base = kitOf(readFileSync('scenes/evening-class.kit.json', 'utf8'))
const isKit = (kit: Kit) => 'kit' in readKit(writeKit(kit))

test('changes of different entries come together whichever was made first', () => {
  const one = changeEntry(renameKit(base, 'ours'), 'heads', base.heads[0]!.id, { name: 'old head' })
  const two = removeEntry(base, base.stands[0]!.id)
  const [ab, ba] = [changesOver(two, base, one), changesOver(one, base, two)]
  expect(ab).toEqual(ba)
  expect([ab.title, ab.heads[0]!.name, ab.stands.length]).toEqual(['ours', 'old head', base.stands.length - 1])
})

test('what nobody touched in between is taken as it is, and the same change twice is made once', () => {
  const one = addHead(base).kit
  expect(changesOver(base, base, one)).toBe(one)
  expect(changesOver(one, base, one)).toEqual(one)
})

test('two heads that got one id at the same moment are both kept under ids of their own, and neither takes the other’s', () => {
  const here = addHead(emptyKit())
  const there = addHead(emptyKit())
  expect(here.id).toBe(there.id)
  const mine = changeEntry(here.kit, 'heads', here.id, { energyJ: 800 })
  const both = changesOver(mine, emptyKit(), there.kit)
  expect(both.heads.map(({ energyJ }) => energyJ)).toEqual([800, 400])
  expect(new Set(both.heads.map(({ id }) => id)).size).toBe(2)
  expect(both.heads[0]!.id).toBe(here.id)
  expect(isKit(both)).toBe(true)
})

test('a calibration goes with the head that was removed in another tab', () => {
  const [{ id: headId }, { id: modifierId }] = [base.heads[0]!, base.modifiers[0]!]
  const gone = removeEntry(base, headId)
  const calibration = { id: 'calibration-1', headId, modifierId, stops: 0.3, date: '2026-11-26', readFNumber: 8 }
  const here = { ...addStand(base).kit, calibrations: [calibration] }
  expect(isKit(here)).toBe(true)
  const both = changesOver(here, base, gone)
  expect(both.calibrations).toEqual([])
  expect(both.stands).toHaveLength(base.stands.length + 1)
  expect(isKit(both)).toBe(true)
})

type Step = readonly [kind: 'head' | 'stand' | 'rename' | 'remove' | 'name', n: number]
const steps = fc.array(
  fc.tuple(fc.constantFrom('head', 'stand', 'rename', 'remove', 'name'), fc.nat(5)) as fc.Arbitrary<Step>,
  { maxLength: 8 },
)
function made(kit: Kit, [kind, n]: Step): Kit {
  if (kind === 'head') return addHead(kit).kit
  if (kind === 'stand') return addStand(kit).kit
  if (kind === 'name') return renameKit(kit, `kit ${n}`)
  const entry = kit.heads[n]
  if (!entry) return kit
  return kind === 'remove' ? removeEntry(kit, entry.id) : changeEntry(kit, 'heads', entry.id, { name: `head no ${n}` })
}

test('whatever two tabs do, the outcome is a kit with every entry that only one of them added, and none that one removed and the other left', () => {
  fc.assert(
    fc.property(steps, steps, (ours, theirs) => {
      const [a, b] = [ours, theirs].map((list) => list.reduce(made, base))
      const both = changesOver(a!, base, b!)
      expect(isKit(both)).toBe(true)
      const ids = (kit: Kit) => [...kit.heads, ...kit.stands].map(({ id }) => id)
      const added = (kit: Kit) => ids(kit).filter((id) => !ids(base).includes(id))
      expect(added(both).length).toBeGreaterThanOrEqual(new Set([...added(a!), ...added(b!)]).size)
      for (const { id } of base.stands) expect(ids(both)).toContain(id)
      for (const entry of base.heads) {
        const left = [a!, b!].map((kit) => kit.heads.find(({ id }) => id === entry.id))
        const isGone = left.some((one, i) => !one && JSON.stringify(left[1 - i] ?? entry) === JSON.stringify(entry))
        if (isGone) expect(ids(both)).not.toContain(entry.id)
      }
    }),
    { numRuns: 200 },
  )
})
