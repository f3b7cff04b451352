import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { changesBetween } from '../../src/render/changes'
import { listObjects } from '../../src/render/objects'
import { Places } from '../../src/render/places'
import { nextScene, partsOf } from '../../src/render/scene'
import { POSED } from '../../src/render/sitter-geometry'
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
type Scene = ReturnType<typeof afresh>
type Geometry = Scene['figures'] | Scene['hairs']
const sameBytes = (a: { readonly buffer: unknown }, b: { readonly buffer: unknown }) =>
  Buffer.compare(Buffer.from(a.buffer as ArrayBuffer), Buffer.from(b.buffer as ArrayBuffer)) === 0
const same = (a: Geometry, b: Geometry, name: string) =>
  sameBytes(a.getAttribute(name).array, b.getAttribute(name).array)
const sameRest = (a: Scene, b: Scene) =>
  POSED.every((name) => sameBytes(a.figures.atRest[name], b.figures.atRest[name])) &&
  sameBytes(a.figures.headWeight, b.figures.headWeight)

test('a dialled shape moves the geometry that is there to what a new one would be', () => {
  const [before, after] = [rigOf(two), rigOf(setSitterShape(two, second, 'child'))]
  const { old, next } = followed(before, after)
  expect(next.figures === old.figures).toBe(true)
  expect(next.set === old.set).toBe(true)
  const scratch = afresh(after)
  for (const name of ['corners', 'weights']) expect(same(next.figures, scratch.figures, name), name).toBe(true)
  expect(sameRest(next, scratch)).toBe(true)
  expect(next.figures.spans).toEqual(scratch.figures.spans)
  for (const group of ['lashes', 'hairs'] as const) {
    expect(next[group] === old[group]).toBe(true)
    for (const name of Object.keys(scratch[group].attributes))
      expect(same(next[group], scratch[group], name), `${group}, ${name}`).toBe(true)
  }
  expect(sameRest(next, afresh(before))).toBe(false)
})

test('a turned head writes nothing but its carriage; eyes that look up move lids and lashes, and leave hairs where they are', () => {
  const rest = rigOf(two)
  const turned = followed(rest, rigOf(setSitter(two, 'sitter', { headTurnDeg: 20 })))
  const all = afresh(rest).figures.written.length
  expect(turned.next.figures.spans[0].carriage).not.toEqual(afresh(rest).figures.spans[0].carriage)
  expect(turned.next.figures.written.length).toBe(all)
  for (const group of ['lashes', 'hairs'] as const) {
    expect(turned.next[group] === turned.old[group]).toBe(true)
    expect(same(turned.next[group], afresh(rest)[group], 'position')).toBe(true)
  }
  const looking = followed(rest, rigOf(setSitter(two, 'sitter', { gaze: { acrossDeg: 0, upDeg: 15 } })))
  expect(sameRest(looking.next, afresh(rest))).toBe(false)
  expect(same(looking.next.hairs, afresh(rest).hairs, 'position')).toBe(true)
  expect(same(looking.next.lashes, afresh(rest).lashes, 'position')).toBe(false)
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
