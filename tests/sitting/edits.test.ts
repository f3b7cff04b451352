import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { defaultModifier, MODIFIER_KINDS } from '../../src/gear'
import * as sitting from '../../src/sitting'
import { checkSitting, EditRefused, emptySitting, firstSitting, type Sitting } from '../../src/sitting'

const first = firstSitting()
const key = first.sources[0]

/** Freezes every record, so that an edit that changes its argument throws. */
function frozen<T>(value: T): T {
  if (value !== null && typeof value === 'object') {
    Object.values(value).forEach(frozen)
    Object.freeze(value)
  }
  return value
}
const start = frozen(
  sitting.addObject(
    sitting.addObject(sitting.addSource({ ...first, 'x-mark': 1 } as Sitting, { role: 'hair' }).sitting, 'ball')
      .sitting,
    'flag-before-card',
  ).sitting,
)

describe('S15 an edit changes what it says and keeps the rest', () => {
  const source = ({ sources }: Sitting) => sources[0]
  /** Name, the edit, the field that it changes, and what stands there afterwards. */
  const edits: readonly (readonly [
    string,
    (s: Sitting) => Sitting,
    keyof Sitting,
    (s: Sitting) => unknown,
    unknown,
  ])[] = [
    ['moveSource', (s) => sitting.moveSource(s, 'key', [1, 2, 1]), 'sources', (s) => source(s).centreM, [1, 2, 1]],
    ['aimSource', (s) => sitting.aimSource(s, 'key', [0, 1.1, 0]), 'sources', (s) => source(s).aimM, [0, 1.1, 0]],
    ['swapModifier', (s) => sitting.swapModifier(s, 'key', 'dish'), 'sources', (s) => source(s).modifier.kind, 'dish'],
    [
      'setModifier',
      (s) => sitting.setModifier(s, 'key', { bodyM: 0.25 }),
      'sources',
      (s) => source(s).modifier,
      { ...key.modifier, bodyM: 0.25 },
    ],
    [
      'setPower',
      (s) => sitting.setPower(s, 'key', -2),
      'sources',
      (s) => source(s).head,
      { ...key.head, powerStops: -2 },
    ],
    [
      'setHead',
      (s) => sitting.setHead(s, 'key', { energyJ: 250 }),
      'sources',
      (s) => source(s).head,
      { ...key.head, energyJ: 250 },
    ],
    ['switchSource', (s) => sitting.switchSource(s, 'key', false), 'sources', (s) => source(s).on, false],
    ['addSource', (s) => sitting.addSource(s).sitting, 'sources', (s) => s.sources.length, start.sources.length + 1],
    [
      'duplicateSource',
      (s) => sitting.duplicateSource(s, 'key').sitting,
      'sources',
      (s) => s.sources.filter(({ head }) => head === key.head).length,
      2,
    ],
    [
      'setSitter',
      (s) => sitting.setSitter(s, 'sitter', { headTurnDeg: -20 }),
      'sitters',
      (s) => s.sitters,
      [{ ...first.sitters[0], headTurnDeg: -20 }],
    ],
    [
      'movePanel',
      (s) => sitting.movePanel(s, 'panel', [-0.8, 1.1, 0]),
      'panels',
      (s) => s.panels,
      [{ ...first.panels[0], centreM: [-0.8, 1.1, 0] }],
    ],
    ['addPanel', (s) => sitting.addPanel(s, 'silver').sitting, 'panels', (s) => s.panels[1].kind, 'silver'],
    [
      'duplicateThing',
      (s) => sitting.duplicateThing(s, 'ball').sitting,
      'objects',
      (s) => s.objects.filter(({ kind }) => kind === 'ball').length,
      2,
    ],
    [
      'moveObject',
      (s) => sitting.moveObject(s, 'ball', [0.3, 1, 0]),
      'objects',
      (s) => s.objects[0],
      { ...start.objects[0], centreM: [0.3, 1, 0] },
    ],
    [
      'setObject',
      (s) => sitting.setObject(s, 'ball', { diameterM: 0.1 }),
      'objects',
      (s) => s.objects[0],
      { ...start.objects[0], diameterM: 0.1 },
    ],
    [
      'setBackdrop',
      (s) => sitting.setBackdrop(s, { distanceM: 1.2 }),
      'backdrop',
      (s) => s.backdrop,
      { ...first.backdrop, distanceM: 1.2 },
    ],
    ['setBackdrop null', (s) => sitting.setBackdrop(s, null), 'backdrop', (s) => s.backdrop, null],
    [
      'setRoom',
      (s) => sitting.setRoom(s, { wallReflectance: 0.2 }),
      'room',
      (s) => s.room,
      { ...first.room, wallReflectance: 0.2 },
    ],
    [
      'setCamera',
      (s) => sitting.setCamera(s, { focalLengthMm: 85 }),
      'camera',
      (s) => s.camera,
      { ...first.camera, focalLengthMm: 85 },
    ],
    ['setReExpose', (s) => sitting.setReExpose(s, 'nothing'), 'reExpose', (s) => s.reExpose, 'nothing'],
    ['setTitle', (s) => sitting.setTitle(s, 'Another'), 'title', (s) => s.title, 'Another'],
    ['setNote', (s) => sitting.setNote(s, 'Mind the cable'), 'note', (s) => s.note, 'Mind the cable'],
    ['keepTake', (s) => sitting.keepTake(s), 'takes', (s) => s.takes.map(({ name }) => name), ['take 1']],
    ['removeThing', (s) => sitting.removeThing(s, 'panel'), 'panels', (s) => s.panels, []],
    [
      'removeThing, a meter place',
      (s) => sitting.removeThing(s, 'behind'),
      'meterPlaces',
      (s) => s.meterPlaces,
      first.meterPlaces.filter(({ id }) => id !== 'behind'),
    ],
  ]
  test.each(edits)('%s', (_, edit, changed, found, expected) => {
    const after = edit(start)
    expect(found(after)).toEqual(expected)
    const differing = (Object.keys(start) as (keyof Sitting)[]).filter((field) => after[field] !== start[field])
    expect(differing).toEqual([changed])
    expect(checkSitting(after)).toEqual([])
    // S3: what nobody knows is still there.
    expect(after).toHaveProperty('x-mark', 1)
  })
  test('records beside the changed one are the same objects', () => {
    const after = sitting.moveSource(start, 'key', [1, 2, 1])
    expect(after.sources[1]).toBe(start.sources[1])
    expect(after.sources[0].head).toBe(start.sources[0].head)
  })
})

test.each(MODIFIER_KINDS.map(({ id }) => [id]))('S6 a swap to %s makes a valid sitting', (kind) => {
  expect(checkSitting(sitting.swapModifier(first, 'key', kind))).toEqual([])
})

/** Common practice, no source: another modifier goes on the same head. */
test('a swap keeps the length of the head, so that a modifier put back is the set that it was', () => {
  const away = sitting.swapModifier(first, 'key', 'softbox')
  const back = sitting.swapModifier(away, 'key', key.modifier.kind)
  expect(key.modifier.bodyM).not.toBe(defaultModifier(key.modifier.kind).bodyM)
  expect(away.sources[0]!.modifier.bodyM).toBe(key.modifier.bodyM)
  expect(back.sources[0]!.modifier).toMatchObject(key.modifier)
  expect(sitting.swapModifier(first, 'key', 'sun').sources[0]!.modifier.bodyM).toBeUndefined()
})

test.each([0.6, 0.75, 1.5])(
  'an umbrella of %s m keeps the shape of its canopy and where the lamp stands in it',
  (width) => {
    const { modifier } = sitting.setModifier(first, 'key', { diameterM: width }).sources[0]
    for (const id of ['depthM', 'shaftM'])
      expect(Number(modifier[id]) / width).toBeCloseTo(Number(key.modifier[id]) / Number(key.modifier.diameterM), 3)
    expect(modifier.bodyM).toBe(key.modifier.bodyM)
    const deeper = sitting.setModifier(first, 'key', { depthM: 0.3 }).sources[0].modifier
    expect([deeper.diameterM, deeper.shaftM]).toEqual([key.modifier.diameterM, key.modifier.shaftM])
  },
)

describe('S4 S5 new things get free ids and letters', () => {
  test('letters go on from what is free', () => {
    const three = sitting.addSource(sitting.addSource(first).sitting).sitting
    expect(three.sources.map(({ letter }) => letter)).toEqual(['A', 'B', 'C'])
    const again = sitting.addSource(sitting.removeThing(three, three.sources[1].id)).sitting
    expect(again.sources.map(({ letter }) => letter)).toEqual(['A', 'C', 'B'])
  })
  test('an empty sitting is valid, has no light, and its first source is the key', () => {
    const empty = emptySitting()
    expect([...empty.sources, ...empty.panels, ...checkSitting(empty)]).toEqual([])
    const one = sitting.addSource(empty).sitting
    expect([...one.sources, ...sitting.addSource(one).sitting.sources].map(({ role }) => role)).toEqual([
      'key',
      'key',
      'fill',
    ])
  })
  test('the 27th source is refused', () => {
    let full: Sitting = first
    for (let i = 1; i < 26; i++) full = sitting.addSource(full).sitting
    expect(new Set(full.sources.map(({ letter }) => letter)).size).toBe(26)
    expect(() => sitting.addSource(full)).toThrow(EditRefused)
    expect(checkSitting(full)).toEqual([])
  })
  test.each(['key', 'fill', 'hair', 'backdrop', 'kicker'] as const)(
    'a %s stands in the room and before the backdrop',
    (role) => {
      const { sitting: after, id } = sitting.addSource(first, { role })
      const [x, y, z] = sitting.thingById(after, 'sources', id).centreM
      expect(z).toBeGreaterThan(-1.5)
      expect(Math.abs(x)).toBeLessThan(2)
      expect(y).toBeLessThan(2.6)
      expect(checkSitting(after)).toEqual([])
    },
  )
})

test('S15 a copy of a source stands to camera right of the first and shines the same way', () => {
  const facing = sitting.aimSource(sitting.moveSource(first, 'key', [0, 1.5, 2]), 'key', [0, 1.5, 0])
  const { sitting: after, id } = sitting.duplicateSource(facing, 'key')
  const copy = sitting.thingById(after, 'sources', id)
  expect(copy).toMatchObject({ letter: 'B', modifier: key.modifier, head: key.head })
  expect(copy.centreM[0]).toBeCloseTo(0.4, 12)
  expect(copy.centreM.slice(1)).toEqual([1.5, 2])
})

describe('S15 mirroring', () => {
  test('moves the key to camera left and turns what turns', () => {
    const after = sitting.mirrorSet(start)
    expect(after.sources[0].centreM[0]).toBe(-key.centreM[0])
    expect(after.sitters[0].headTurnDeg).toBe(-15)
    expect(after.panels[0]).toMatchObject({ turnDeg: -90 })
    expect(after.panels[0].centreM[0]).toBe(0.62)
    expect(after.meterPlaces[0].at).toMatchObject({ landmark: 'cheekRight' })
    expect(checkSitting(after)).toEqual([])
  })
  test('twice gives the sitting back, zeros and all', () => {
    expect(sitting.mirrorSet(sitting.mirrorSet(start))).toEqual(start)
    expect(JSON.stringify(sitting.mirrorSet(sitting.mirrorSet(start)))).toBe(JSON.stringify(start))
  })
})

describe('S11 takes', () => {
  const moved = sitting.moveSource(sitting.keepTake(first), 'key', [1, 2, 1])
  test('a take is the set as it was, and opening it keeps all takes', () => {
    const two = sitting.keepTake(moved)
    expect(two.takes.map(({ name }) => name)).toEqual(['take 1', 'take 2'])
    const opened = sitting.openTake(two, 'take 1')
    expect(opened.sources).toBe(first.sources)
    expect(opened.takes).toBe(two.takes)
    expect(checkSitting(two)).toEqual([])
    expect(sitting.removeTake(two, 'take 1').takes.map(({ name }) => name)).toEqual(['take 2'])
  })
  test('a second take of the same name is refused', () => {
    expect(() => sitting.keepTake(moved, 'take 1')).toThrow(EditRefused)
  })
})

test('S9 the first sitter stays; a removed second one takes their meter places along', () => {
  expect(() => sitting.removeThing(first, 'sitter')).toThrow(EditRefused)
  const second = { ...first.sitters[0], id: 'second', xM: 0.5 }
  const place = { ...first.meterPlaces[0], id: 'second-cheek', at: { sitterId: 'second', landmark: 'cheekLeft' } }
  const two = { ...first, sitters: [...first.sitters, second], meterPlaces: [...first.meterPlaces, place] }
  expect(sitting.removeThing(two, 'second')).toEqual(first)
})

test('S20 a second mirror and a folded one are refused, by adding, changing and copying', () => {
  const { sitting: one, id } = sitting.addPanel(first, 'mirror')
  const [white] = first.panels
  for (const more of [
    () => sitting.addPanel(one, 'gold mirror'),
    () => sitting.setPanel(one, white.id, { back: 'mirror' }),
    () => sitting.setPanel(one, id, { foldDeg: 20 }),
    () => sitting.duplicateThing(one, id),
    () => sitting.addCarried(one, { sources: [], panels: one.panels.filter((panel) => panel.id === id), objects: [] }),
  ])
    expect(more).toThrow(EditRefused)
  expect(sitting.setPanel(one, id, { kind: 'silver', foldDeg: 20 }).panels).toHaveLength(2)
})

test('S10 a power that the dial does not reach is refused', () => {
  expect(() => sitting.setPower(first, 'key', -9)).toThrow(/powerStops: expected -7 to 0 stops, got -9/)
  expect(() => sitting.setPower(first, 'key', 0.5)).toThrow(EditRefused)
})

test('an edit of what is not there is an error, not a silent nothing', () => {
  expect(() => sitting.moveSource(first, 'nobody', [0, 0, 0])).toThrow(/no sources with id "nobody"/)
  expect(() => sitting.removeThing(first, 'nobody')).toThrow(/nobody/)
  expect(() => sitting.openTake(first, 'nobody')).toThrow(/nobody/)
})

test('S15 random rows of edits never change the sitting they start from and always give a valid one', () => {
  const edit = fc.constantFrom<((s: Sitting) => Sitting)[]>(
    (s) => sitting.addSource(s, { role: 'kicker' }).sitting,
    (s) => sitting.addPanel(s, 'gold').sitting,
    (s) => sitting.addObject(s, 'card').sitting,
    (s) => sitting.mirrorSet(s),
    (s) => sitting.keepTake(s),
    (s) => (s.sources.length > 0 ? sitting.removeThing(s, s.sources[0].id) : s),
    (s) => (s.panels.length > 0 ? sitting.duplicateThing(s, s.panels[0].id).sitting : s),
    (s) => sitting.setBackdrop(s, s.backdrop ? null : {}),
  )
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 12 }), (edits) => {
      const after = edits.reduce((s, change) => frozen(change(s)), start)
      expect(checkSitting(after)).toEqual([])
    }),
    { numRuns: 60 },
  )
})
