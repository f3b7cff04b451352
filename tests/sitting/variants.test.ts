/** Rows of variants: each changes one thing, the set itself stands among them. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { MODIFIER_KINDS } from '../../src/gear'
import { assembleRig, placeLandmarks } from '../../src/rig'
import {
  addSource,
  firstSitting,
  readSitting,
  setPanel,
  setRoom,
  setSourcePlace,
  sourcePlace,
  swapModifier,
  VARIANT_ROWS,
  type Variant,
  variantsOf,
  writeSitting,
} from '../../src/sitting'
import { leftOut } from '../../src/ui/contact/left-out'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const first = firstSitting()
const marks = placeLandmarks(assembleRig(first, { figure }).figures[0]!)
const row = (name: (typeof VARIANT_ROWS)[number], sitting = first) =>
  variantsOf(sitting, name === 'finishes' ? sitting.panels[0]!.id : 'key', name, marks)
const told = ({ label }: Variant) =>
  label.kind === 'length' ? label.metres : label.kind === 'angle' ? label.degrees : label.words

const ROWS = VARIANT_ROWS.filter((name) => name !== 'sources one by one')

test.each(ROWS)('%s: two to eight states, each a valid sitting, none twice, the set itself once', (name) => {
  const variants = row(name)
  expect(variants.length).toBeGreaterThanOrEqual(2)
  expect(variants.length).toBeLessThanOrEqual(8)
  expect(new Set(variants.map(told)).size).toBe(variants.length)
  for (const { sitting, isNow } of variants) {
    expect('sitting' in readSitting(writeSitting(sitting))).toBe(true)
    expect(sitting === first).toBe(isNow)
  }
  expect(variants.filter(({ isNow }) => isNow)).toHaveLength(1)
})

test('distances lie a stop apart (inverse square: √2 each) and keep direction, aim and all else', () => {
  const variants = row('distances')
  // The lamp of the umbrella would be in the face at less, and at 2.8 m it would be over the ceiling.
  expect(variants.map(told)).toEqual([expect.closeTo(1, 2), 1.4, 2])
  const outdoors = row('distances', setRoom(first, { outdoors: true }))
  expect(outdoors.map(told)).toEqual([expect.closeTo(1, 2), 1.4, 2, 2.8])
  expect(row('distances', swapModifier(first, 'key', 'softbox')).map(told)).toEqual([
    0.5,
    0.7,
    expect.closeTo(1, 2),
    1.4,
    2,
  ])
  const was = sourcePlace(first.sources[0]!, first.camera, marks)
  for (const { sitting, label } of variants) {
    const place = sourcePlace(sitting.sources[0]!, sitting.camera, marks)
    if (label.kind === 'length') expect(place.tapeM).toBeCloseTo(label.metres, 6)
    expect(place.azimuthFromLensDeg).toBeCloseTo(was.azimuthFromLensDeg, 6)
    expect(place.elevationDeg).toBeCloseTo(was.elevationDeg, 6)
    const { centreM: _, ...rest } = sitting.sources[0]!
    const { centreM: __, ...kept } = first.sources[0]!
    expect(rest).toEqual(kept)
  }
})

test('half a metre off, modifiers whose lamp would stand in the face are left out and told; a softbox stays', () => {
  const box = swapModifier(first, 'key', 'softbox')
  const near = setSourcePlace(box, 'key', { tapeM: 0.5 }, marks)
  const kinds = (sitting: typeof first) =>
    row('modifiers', sitting).map((variant) => variant.sitting.sources[0]!.modifier.kind)
  expect(kinds(near)).not.toContain('silver-umbrella')
  expect(kinds(near)).toContain('softbox')
  expect(kinds(box)).toContain('silver-umbrella')
  expect(leftOut(near.sources[0]!, 'modifiers', 0.5, 'metres')).toMatch(
    /^Left out at 0\.50 m: .*silver umbrella.* would be in the/,
  )
  expect(leftOut(box.sources[0]!, 'modifiers', 2, 'metres')).toBeNull()
  const umbrella = setSourcePlace(first, 'key', { tapeM: 0.5 }, marks)
  expect(leftOut(umbrella.sources[0]!, 'modifiers', 0.5, 'metres')).toMatch(/^As it stands, the lamp of A is in the/)
})

test('the usual modifiers and the other ones are all that goes onto a studio head, the set in both; eight at most', () => {
  const kinds = (name: 'modifiers' | 'other modifiers', sitting = first) =>
    row(name, sitting).map((variant) => variant.sitting.sources[0]!.modifier.kind)
  // What burns on, sits on the camera, hangs in the sky, has a head of its own or comes from a file is none of them.
  const onHead = MODIFIER_KINDS.filter(
    ({ id, burnsOn, onCamera, remote }) =>
      !burnsOn && onCamera === undefined && !remote && !['battery-flash', 'ring-flash', 'measured-lamp'].includes(id),
  ).map(({ id }) => id)
  const far = setSourcePlace(first, 'key', { tapeM: 2 }, marks)
  const [usual, others] = [kinds('modifiers', far), kinds('other modifiers', far)]
  expect([...new Set([...usual, ...others])].sort()).toEqual([...onHead].sort())
  expect([usual.length, others.length]).toEqual([7, 8])
  expect(others[0]).toBe(far.sources[0]!.modifier.kind)
  expect(row('other modifiers', far).filter(({ isNow }) => isNow)).toHaveLength(1)
})

test('finishes: the side of a panel that faces the sitter in white, silver, gold and black; its other side stays', () => {
  const [panel] = first.panels
  const sides = (sitting: typeof first) =>
    row('finishes', sitting).map((variant) => {
      const { kind, back = kind } = variant.sitting.panels[0]!
      return `${kind}|${back}`
    })
  expect(sides(first)).toEqual(['white|white', 'silver|white', 'gold|white', 'black|white'])
  const turned = setPanel(first, panel!.id, { turnDeg: panel!.turnDeg + 180, back: 'mirror' })
  expect(sides(turned)).toEqual(['white|white', 'white|silver', 'white|gold', 'white|black', 'white|mirror'])
})

test('turns go round on the side where the source stands', () => {
  expect(row('turns').map(told)).toEqual([0, 30, expect.closeTo(45, 0), 60, 90, 135])
  const other = row('turns', setSourcePlace(first, 'key', { azimuthFromLensDeg: -45 }, marks)).map(told)
  expect(other).toEqual([0, -30, expect.closeTo(-45, 0), -60, -90, -135])
})

test('near: each modifier as far off as it is wide, half a metre at least, its lamp 25 cm off the face', () => {
  for (const { sitting, label } of row('modifiers, near')) {
    const { tapeM } = sourcePlace(sitting.sources[0]!, sitting.camera, marks)
    if (label.kind === 'words' && label.words.startsWith('dish')) expect(tapeM).toBeCloseTo(0.5, 6)
    if (label.kind === 'words' && label.words.startsWith('softbox')) expect(tapeM).toBeCloseTo(0.9, 6)
  }
})

test('one by one: each source that is on by itself, then all; nothing where there is one only', () => {
  expect(row('sources one by one')).toEqual([])
  const two = addSource(first, { role: 'hair' }).sitting
  const variants = row('sources one by one', two)
  expect(variants.map(({ alone }) => alone)).toEqual(['A', 'B', null])
  expect(variants.map(({ sitting }) => sitting.sources.map(({ on }) => on))).toEqual([
    [true, false],
    [false, true],
    [true, true],
  ])
})

test('sizes keep shape and stay within the field’s range; the lamp on the camera has no place to vary', () => {
  const sizes = row('sizes', swapModifier(first, 'key', 'softbox')).map(({ sitting }) => sitting.sources[0]!.modifier)
  expect(sizes.length).toBeGreaterThan(2)
  for (const { widthM, heightM } of sizes) expect(Number(heightM) / Number(widthM)).toBeCloseTo(1.5, 1)
  const shoe = swapModifier(first, 'key', 'on-camera-flash')
  for (const name of ['distances', 'heights', 'turns', 'modifiers, near'] as const) expect(row(name, shoe)).toEqual([])
})
