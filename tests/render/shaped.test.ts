import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { changesBetween } from '../../src/render/changes'
import { listObjects } from '../../src/render/objects'
import { Places } from '../../src/render/places'
import { nextScene, partsOf } from '../../src/render/scene'
import { createRigBuilder, type Rig } from '../../src/rig'
import {
  addSitter,
  firstSitting,
  moveSource,
  removeThing,
  type Sitting,
  setSitter,
  setSitterShape,
} from '../../src/sitting'
import { withSources } from '../bench/gpu/six-sources'

let rigOf: (sitting: Sitting) => Rig
beforeAll(() => {
  rigOf = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })
})

const first = firstSitting()
const { sitting: two, id: second } = addSitter(first)
const afresh = (rig: Rig) => nextScene(null, null, rig, changesBetween(null, rig), listObjects(rig))
const followed = (before: Rig, after: Rig) => {
  const old = afresh(before)
  return { old, next: nextScene(old, before, after, changesBetween(before, after), listObjects(after)) }
}
type Geometry = ReturnType<typeof afresh>['figures']
const same = (a: Geometry, b: Geometry, name: string) => {
  const [one, other] = [a, b].map((geometry) => geometry.getAttribute(name).array)
  return Buffer.compare(Buffer.from(one.buffer), Buffer.from(other.buffer)) === 0
}

test('a dialled shape moves the geometry that is there to what a new one would be', () => {
  const [before, after] = [rigOf(two), rigOf(setSitterShape(two, second, 'child'))]
  const { old, next } = followed(before, after)
  expect(next.figures === old.figures).toBe(true)
  expect(next.set === old.set).toBe(true)
  const scratch = afresh(after)
  for (const name of ['position', 'normal', 'corners', 'weights'])
    expect(same(next.figures, scratch.figures, name), name).toBe(true)
  for (const group of ['lashes', 'hairs'] as const) {
    expect(next[group] === old[group]).toBe(true)
    for (const name of Object.keys(scratch[group].attributes))
      expect(same(next[group], scratch[group], name), `${group}, ${name}`).toBe(true)
  }
  expect(same(next.figures, afresh(before).figures, 'position')).toBe(false)
})

test('a turned head moves lashes, and leaves hairs where they are in its frame', () => {
  const { old, next } = followed(rigOf(two), rigOf(setSitter(two, 'sitter', { headTurnDeg: 20 })))
  expect(next.hairs === old.hairs).toBe(true)
  expect(same(next.hairs, afresh(rigOf(two)).hairs, 'position')).toBe(true)
  expect(same(next.lashes, afresh(rigOf(two)).lashes, 'position')).toBe(false)
})

test('the places that evenness is asked at move with it', () => {
  const [before, after] = [rigOf(two), rigOf(setSitterShape(two, 'sitter', 'broad'))]
  const { set } = afresh(before)
  const places = new Places(partsOf(before), set)
  expect(places.move(partsOf(after), set)).toBe(true)
  expect(places.positions.image.data).toEqual(new Places(partsOf(after), set).positions.image.data)
})

test('a sitter who came or went makes the geometry anew; a moved lamp leaves shaped sitters as they are', () => {
  const shaped = setSitterShape(two, second, 'child')
  const { old, next } = followed(rigOf(shaped), rigOf(removeThing(shaped, second)))
  expect(next.figures === old.figures).toBe(false)
  expect(next.figures.getAttribute('position').count).toBe(old.figures.getAttribute('position').count / 2)
  const lamp = rigOf(moveSource(shaped, 'key', [0.6, 1.8, 0.7]))
  expect(changesBetween(rigOf(shaped), lamp)).toMatchObject({ figures: false, set: false })
})

test('gear and faces that show stay as they are while a source moves that does not show, and are made anew where numbers change', () => {
  const shown = withSources(first, 6)
  const [key] = shown.sources
  const before = rigOf(shown)
  const moved = followed(before, rigOf(moveSource(shown, key.id, [0.9, 1.9, 0.9])))
  expect(moved.old.gear.index!.count, 'gear in the picture').toBeGreaterThan(0)
  expect([moved.next.gear === moved.old.gear, moved.next.faces === moved.old.faces]).toEqual([true, true])
  // The lamp from below is the one that shows.
  const aside = rigOf(moveSource(shown, shown.sources[5].id, [0.4, 2, -1]))
  expect(followed(before, aside).next.gear === moved.old.gear).toBe(false)
  const dish = rigOf({ ...shown, sources: [{ ...key, modifier: defaultModifier('dish') }, ...shown.sources.slice(1)] })
  const renumbered = followed(before, dish)
  for (const name of Object.keys(renumbered.next.gear.attributes))
    expect(same(renumbered.next.gear, afresh(dish).gear, name), name).toBe(true)
  expect(renumbered.next.gear === renumbered.old.gear).toBe(false)
})
