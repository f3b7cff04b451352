import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { type Answer, ASKED_FOR, applyEdits, type Goal, goalFrom, type SolveEdit } from '../../src/readings'
import { firstSitting, type Sitting, type Source, swapModifier } from '../../src/sitting'
import { ask, fill, fixed, hairOver, headOf, key, MAIN } from './ask'
import { lamp, setOf, stopsBetween, take } from './set'

test('f/8, please: the power by the distance law, half power for a stop, in J', () => {
  const set = setOf([key({ head: headOf({ powerStops: -1 }) })], fixed)
  const before = take(set).value(MAIN)
  const { way, powers } = ask(set, { kind: 'f-number', fNumber: before / Math.SQRT2 })
  const power = way!.edits.find((edit) => edit.kind === 'power')
  // N² ∝ H ∝ J: a stop less is half.
  expect(power).toMatchObject({ powerStops: expect.closeTo(-2, 6) })
  expect(powers).toEqual([`A 1/4, ${Math.round(set.sources[0]!.head.energyJ / 4)} J`])
  expect(take(applyEdits(set, way!.edits)).value(MAIN)).toBeCloseTo(before / Math.SQRT2, 6)
})

test('a dial in thirds is set on a third, and the answer says what that leaves', () => {
  const set = setOf([key({ head: headOf({ stepStops: 1 / 3, powerStops: -3 }) })], fixed)
  const wanted = take(set).value(MAIN) * 2 ** (0.13 / 2)
  const { way, sentence } = ask(set, { kind: 'f-number', fNumber: wanted })
  const dial = (way!.edits.find((edit) => edit.kind === 'power') as Extract<SolveEdit, { kind: 'power' }>).powerStops
  expect(Math.abs(dial * 3 - Math.round(dial * 3))).toBeLessThan(1e-9)
  expect(sentence).toMatch(/leave −0\.13 stop/)
  expect(take(applyEdits(set, way!.edits)).value(MAIN)).toBeCloseTo(way!.promised, 6)
})

test('too strong: what the lowest power gives, how far to move, how much ND; each, applied, gives f/8', () => {
  const set = setOf([key({ d: 0.9, head: headOf({ energyJ: 400, lowestStops: -5, powerStops: -5 }) })], fixed)
  const { way, sentence, others } = ask(set, { kind: 'f-number', fNumber: 8 })
  expect(way).toBeNull()
  expect(sentence).toMatch(
    /^too strong: A at its lowest, 1\/32, still gives f\/[\d.]+ at [\d.]+ m; for f\/8 move A to about [\d.]+ m, or put \d stops? of ND on/,
  )
  expect(others).toHaveLength(2)
  for (const other of others) {
    expect(Math.abs(stopsBetween(8, other.promised))).toBeLessThan(0.02)
    expect(Math.abs(stopsBetween(other.promised, take(applyEdits(set, other.edits)).value(MAIN)))).toBeLessThan(0.001)
  }
})

test('too weak: what full gives, how near to move, which ISO', () => {
  const set = setOf([key({ d: 3, modifier: defaultModifier('softbox'), head: headOf({ energyJ: 100 }) })], fixed)
  const { way, sentence, others } = ask(set, { kind: 'f-number', fNumber: 11 })
  expect(way).toBeNull()
  expect(sentence).toMatch(/^too weak: A at full gives f\/[\d.]+ .*move A to about [\d.]+ m.*ISO \d+/)
  for (const other of others) {
    const after = take(applyEdits(set, other.edits)).value(MAIN)
    expect(Math.abs(stopsBetween(11, after))).toBeLessThan(0.02)
  }
})

/** Powers give way, as in the scenes of the project; f/8 on the lens. */
const giving = (sources: readonly Source[], rest: Partial<Sitting> = {}): Sitting => {
  const set = setOf(sources, { reExpose: 'powers', ...rest })
  return { ...set, camera: { ...set.camera, fNumber: 8 } }
}
const shownDials = (sitting: Sitting) => take(sitting).exposure.perSourceStops
const promisedDials = ({ way }: Answer) =>
  Object.fromEntries(way!.edits.flatMap((edit) => (edit.kind === 'power' ? [[edit.sourceId, edit.powerStops]] : [])))

test('where powers give way, the dials of the answer are those that the page shows after it, and f/8 stays f/8', () => {
  const set = giving([key(), fill({ head: headOf({ lowestStops: -10 }) })])
  const answer = ask(set, { kind: 'fill under key', stops: 3 })
  const after = applyEdits(set, answer.way!.edits)
  for (const [id, dial] of Object.entries(promisedDials(answer))) expect(shownDials(after)[id]).toBeCloseTo(dial, 6)
  expect(take(after).value(MAIN)).toBeCloseTo(8, 6)
  expect(Math.log2(take(after).value('ratio.keyFill'))).toBeCloseTo(3, 6)
})

test.each([
  { kind: 'f-number', fNumber: 5.6 },
  { kind: 'fill under key', stops: 2 },
] as const)(
  'where powers give way, dials with steps stay on them, and the camera goes with what they give: %o',
  (goal) => {
    const stepped = headOf({ stepStops: 1 / 3, lowestStops: -10 })
    const set = giving([key({ head: stepped }), fill({ head: stepped })])
    const answer = ask(set, goal)
    const after = applyEdits(set, answer.way!.edits)
    for (const dial of Object.values(shownDials(after)))
      expect(Math.abs(3 * dial - Math.round(3 * dial))).toBeLessThan(0.061)
    expect(Math.abs(stopsBetween(after.camera.fNumber, take(after).value(MAIN)))).toBeLessThan(1e-6)
  },
)

test('with the exposure held, a dial that would have to go over full is refused', () => {
  // Key and fill are alike from the lens axis: with the fill 4 stops down, the key has to give the half that the fill gave.
  const alike = [key({ az: 6, el: 4, d: 2 }), fill({ az: -6, el: 4, d: 2 })]
  const open = giving(alike)
  const dial = shownDials(open)['source-A']!
  const energyJ = alike[0]!.head.energyJ * 2 ** (dial + 0.5)
  const small = alike.map((source) => ({ ...source, head: { ...source.head, energyJ, lowestStops: -10 } }))
  const { way, sentence } = ask(giving(small), { kind: 'fill under key', stops: 4 })
  expect(way).toBeNull()
  expect(sentence).toMatch(/^A is too weak: it lacks 0\.[34] stops/)
})

test('two fills on different steps: what is promised is what the readings then make of both', () => {
  const set = setOf(
    [
      key({ head: headOf({ lowestStops: -10 }) }),
      fill({ head: headOf({ stepStops: 1, lowestStops: -10, powerStops: -4 }) }),
      fill({ ...lamp('C', { az: 12, el: 6, d: 1.7 }), role: 'fill', head: headOf({ stepStops: 0.1, powerStops: -5 }) }),
    ],
    fixed,
  )
  const { way } = ask(set, { kind: 'fill under key', stops: 1.7 })
  expect(Math.log2(take(applyEdits(set, way!.edits)).value('ratio.keyFill'))).toBeCloseTo(way!.promised, 6)
})

test('dials whose ends lie nearer each other than their lights: said, and no f-number of dials that are not to be had', () => {
  // The lowest whole step of A is −6, half a stop over where it stands, and B is at full.
  const low = headOf({ lowestStops: -6.5, powerStops: -6.5, stepStops: 1 })
  const set = setOf([key({ head: low }), fill({ head: headOf({ powerStops: 0 }) })], fixed)
  const { way, sentence, others } = ask(set, { kind: 'f-number', fNumber: take(set).value(MAIN) / 2 })
  expect([way, others]).toEqual([null, []])
  expect(sentence).toMatch(/B would go over full.* A under its lowest/)
})

/** trade.md §2.4, computed: fill below key, key : fill, highlight : shadow, gain on the highlight. */
test.each([
  [0, 1, 2, 1],
  [0.5, 1.4, 2.4, 0.77],
  [1, 2, 3, 0.58],
  [1.5, 2.8, 3.8, 0.44],
  [1.6, 3, 4, 0.42],
  [2, 4, 5, 0.32],
  [3, 8, 9, 0.17],
  [4, 16, 17, 0.09],
])(
  'fill %f stops under key: key : fill %f, highlight : shadow %f, the highlight gains %f',
  (stops, keyFill, highlight, gain) => {
    // Both on the lens axis, so that fill covers both cheeks.
    const head = headOf({ lowestStops: -10 })
    const set = setOf([key({ az: 6, el: 4, d: 2 }), fill({ az: -6, el: 4, d: 2, head })], fixed)
    const { way } = ask(set, { kind: 'fill under key', stops })
    const after = take(applyEdits(set, way!.edits))
    expect(way!.promised).toBeCloseTo(stops, 6)
    expect(Math.abs(after.value('ratio.keyFill') - keyFill)).toBeLessThan(0.06)
    expect(Math.abs(after.value('ratio.highlightShadow') - highlight)).toBeLessThan(0.06)
    const alone = after.value('source.A.alone')
    // The disc faces the key; a fill 12° off loses 0.03 stop of its light there.
    expect(Math.abs(stopsBetween(alone, after.value(MAIN)) - gain)).toBeLessThan(0.025)
  },
)

test('the two conventions of a ratio are kept apart: 3 : 1 is 1 stop as highlight : shadow, 1.58 read apart', () => {
  const set = setOf([key({ az: 6, d: 2 }), fill({ az: -6, d: 2 })], fixed)
  const { way } = ask(set, { kind: 'highlight over shadow', ratio: 3 })
  expect(way!.promised).toBeCloseTo(3, 6)
  const apart = ask(set, { kind: 'fill under key', stops: Math.log2(3) })
  const dial = ({ way: w }: Answer) =>
    (w!.edits.find((e) => e.kind === 'power' && e.sourceId === 'source-B') as { powerStops: number }).powerStops
  expect(dial({ way } as Answer) - dial(apart)).toBeCloseTo(Math.log2(3) - 1, 6)
})

test.each([
  ['white', 0.88 * 2 ** 0.5],
  ['mid-grey', 0.18],
  ['black', 0.88 / 32],
] as const)('backdrop %s by its own light', (tone, linear) => {
  const head = headOf({ lowestStops: -10, powerStops: -5 })
  const backlight = {
    ...lamp('C', { role: 'backdrop', head }),
    centreM: [-1, 1.6, -1] as const,
    aimM: [0, 1.2, -2.5] as const,
  }
  const backdrop = { widthM: 2.72, heightM: 2.4, distanceM: 2.5, reflectance: [0.6, 0.6, 0.6] as const }
  const set = setOf([key({ el: 45 }), backlight], { ...fixed, backdrop, room: { ...setOf([]).room, depthM: 12 } })
  const { way, sentence } = ask(set, { kind: 'backdrop tone', tone })
  if (!way) {
    // Spill of the key alone lies over black paper's value here.
    expect(tone).toBe('black')
    expect(sentence).toMatch(/spill/)
    return
  }
  const after = take(applyEdits(set, way.edits))
  expect(after.value('backdrop.stops')).toBeCloseTo(way.promised, 6)
  expect(after.value('backdrop.stops')).toBeCloseTo(Math.log2(linear / 0.6), 6)
})

test('backdrop mid-grey by hanging it farther: a search that ends on the tone', () => {
  const backdrop = { widthM: 3, heightM: 3, distanceM: 1.5, reflectance: [0.88, 0.88, 0.88] as const }
  const room = { ...setOf([]).room, depthM: 16, widthM: 12, heightM: 5 }
  const set = setOf([key({ az: 20, el: 15, d: 2 })], { ...fixed, backdrop, room })
  const { way } = ask(set, { kind: 'backdrop tone by distance', tone: 'mid-grey' })
  const after = take(applyEdits(set, way!.edits))
  expect(Math.abs(after.value('backdrop.stops') - Math.log2(0.18 / 0.88))).toBeLessThan(0.02)
})

test('hair light −1 against the face', () => {
  const hair = { ...lamp('C', { az: 150, el: 50, d: 1, role: 'hair', head: headOf({ lowestStops: -9 }) }) }
  const set = setOf([key(), hair], fixed)
  const { way } = ask(set, { kind: 'hair light', stops: -1 })
  expect(hairOver(applyEdits(set, way!.edits), 'source-C')).toBeCloseTo(-1, 4)
})

test('of two hair lights one is set, and the answer says which', () => {
  const hair = (letter: string, az: number) =>
    lamp(letter, { az, el: 50, d: 1, role: 'hair', head: headOf({ lowestStops: -9 }) })
  const { way, sentence } = ask(setOf([key(), hair('C', 150), hair('D', -150)], fixed), {
    kind: 'hair light',
    stops: -1,
  })
  expect(sentence).toMatch(/gives hair light C of 2 /)
  const dialOf = (id: string) => way!.edits.find((edit) => edit.kind === 'power' && edit.sourceId === id)
  expect(dialOf('source-D')).toMatchObject({ powerStops: headOf({}).powerStops })
  expect(dialOf('source-C')).not.toMatchObject({ powerStops: headOf({}).powerStops })
})

test('what can not be had says why: bad numbers, no fill, a panel for a fill, no backdrop, daylight', () => {
  const set = setOf([key()], fixed)
  const before = structuredClone(set)
  const why = (sitting: Sitting, goal: Goal): string => {
    const { way, sentence } = ask(sitting, goal)
    expect(way).toBeNull()
    return sentence
  }
  expect(why(set, { kind: 'f-number', fNumber: 0 })).toMatch(/expected 0\.7 to 128, got 0/)
  expect(why(set, { kind: 'f-number', fNumber: Number.NaN })).toMatch(/got NaN/)
  expect(why(set, { kind: 'fill under key', stops: Number.POSITIVE_INFINITY })).toMatch(/got Infinity/)
  expect(why(set, { kind: 'highlight over shadow', ratio: 0.5 })).toMatch(/expected 1 to/)
  expect(why(set, { kind: 'fill under key', stops: 1 })).toMatch(/role fill/)
  expect(why({ ...set, panels: firstSitting().panels }, { kind: 'fill under key', stops: 1 })).toMatch(/panel/)
  expect(why(set, { kind: 'backdrop tone', tone: 'white' })).toMatch(/no backdrop/)
  expect(why(set, { kind: 'hair light', stops: -1 })).toMatch(/role hair/)
  expect(why(setOf([], fixed), { kind: 'f-number', fNumber: 8 })).toMatch(/no source is on/)
  const sunny = { ...swapModifier(set, 'source-A', 'sun'), room: { ...set.room, outdoors: true } }
  expect(why(sunny, { kind: 'f-number', fNumber: 8 })).toMatch(/dial/)
  expect(set).toEqual(before)
})

test('asked in words: every phrase of the page is a goal, and others say what could be asked', () => {
  const set = setOf([key(), fill()], fixed)
  for (const words of ASKED_FOR) expect(typeof goalFrom(words, set), words).toBe('object')
  expect(goalFrom('F/5.6, please', set)).toEqual({ kind: 'f-number', fNumber: 5.6 })
  expect(goalFrom('f/5.6 please', set)).toEqual({ kind: 'f-number', fNumber: 5.6 })
  expect(goalFrom(' 5.6 BY b', set)).toMatch(/expected words/)
  expect(goalFrom('f 5,6 by b', set)).toMatch(/expected words/)
  expect(goalFrom('f/5,6 by b', set)).toEqual({ kind: 'f-number by distance', fNumber: 5.6, sourceId: 'source-B' })
  expect(goalFrom('f/8 by z', set)).toMatch(/no source Z; there are A, B/)
  expect(goalFrom('key:fill 4:1', set)).toEqual({ kind: 'fill under key', stops: 2 })
  const fill1 = { kind: 'fill under key', stops: 1 }
  for (const words of ['fill 1', 'fill −1', 'fill -1 stop']) expect(goalFrom(words, set), words).toEqual(fill1)
  expect(goalFrom('fill 2 stops', set)).toEqual({ kind: 'fill under key', stops: 2 })
  expect(goalFrom('fill +1', set)).toEqual({ kind: 'fill under key', stops: -1 })
  expect(goalFrom('key:fill 0:1', set)).toMatch(/over 0 : 1, got "key:fill 0:1"/)
  expect(goalFrom('key:fill -2:1', set)).toMatch(/over 0 : 1/)
  for (const [said, asked] of [
    ['hair 1', 'Ask for hair +1 or hair −1'],
    ['backdrop 0.5', 'Ask for backdrop +0.5 or backdrop −0.5'],
  ] as const)
    expect(goalFrom(said, set), said).toMatch(asked)
  expect(goalFrom('hair −1', set)).toEqual({ kind: 'hair light', stops: -1 })
  expect(goalFrom('backdrop 0', set)).toEqual({ kind: 'backdrop over face', stops: 0 })
  expect(goalFrom('backdrop +0.5', set)).toEqual({ kind: 'backdrop over face', stops: 0.5 })
  for (const words of ['', 'f/', 'f/NaN', 'f/-8 by', 'hair']) expect(typeof goalFrom(words, set), words).toBe('string')
})
