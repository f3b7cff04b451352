/** What is told of the way from one set to another: thresholds are common practice, no source. */
import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import {
  differenceOf,
  differenceReasons,
  type SetFigures,
  setFigures,
  tintBetween,
  verdictOf,
} from '../../src/readings'
import { firstSitting, setPanel } from '../../src/sitting'
import { lamp, setOf, take } from './set'

const figures: SetFigures = {
  ...{
    edgeMm: 24,
    isFull: true,
    tenToNinetyMm: 16,
    edgeDeg: 51,
    acrossDeg: 51,
    highDeg: 51,
    lossStops: -1.7,
    roomM2: 3.5,
    exposureStops: null,
  },
  ...{ shadowStops: -3, hidden: 1, chinStops: -2, nearFarStops: -0.6, backdropStops: -2, energyJ: 24, pattern: 'loop' },
}
const seen = (change: Partial<SetFigures>, from = figures) => differenceOf(from, { ...figures, ...change }).seen

test('an edge within a quarter of either width and light under 0.3 stop are no visible difference', () => {
  expect(seen({})).toEqual([])
  expect(seen({ edgeMm: 20, shadowStops: -3.24, backdropStops: -1.76 })).toEqual([])
  expect(seen({ edgeMm: 40, isFull: false }, { ...figures, edgeMm: 40, isFull: false })).toEqual([])
})

test('what would be shown as 0.3 stop or as 25 % is never told as none, whichever way it is counted', () => {
  expect(seen({ shadowStops: -2.74 })).toEqual(['the shadow under the nose 0.3 stop lighter'])
  expect(seen({ edgeMm: 29.9 })).toEqual(['shadow edge 25 % wider'])
  // A quarter of the narrower one, a fifth of the wider one.
  expect(seen({ edgeMm: 19.2 })).toEqual(['shadow edge 20 % narrower'])
})

test('beyond them it is told in times and stops, the widest change of light first', () => {
  expect(seen({ edgeMm: 72 })).toEqual(['shadow edge 3.0 times as wide'])
  expect(seen({ edgeMm: 6 })).toEqual(['shadow edge 75 % narrower'])
  expect(seen({ edgeMm: 25, isFull: false })).toEqual(['no full shadow is left'])
  // Wider than the nose: the full width goes on.
  expect(seen({ edgeMm: 36, isFull: false })).toEqual(['no full shadow is left, shadow edge 50 % wider'])
  // Nothing is told of a shadow that was just said to be gone.
  expect(seen({ isFull: false, shadowStops: -3.5 })).toEqual([
    'no full shadow is left',
    'what shadow is left under the nose 0.5 stop darker',
  ])
  const wide = { ...figures, edgeMm: 40, isFull: false }
  expect(seen({ edgeMm: 100, isFull: false }, wide)).toEqual(['shadow edge 2.5 times as wide'])
  expect(seen({}, { ...figures, edgeMm: 25, isFull: false })).toEqual(['there is a full shadow'])
  // A fill from below or from the side does more for the neck than for the cheek.
  expect(seen({ shadowStops: -2.5, chinStops: -1.2 })).toEqual([
    'the shadow under the chin 0.8 stop lighter',
    'the shadow under the nose 0.5 stop lighter',
  ])
  expect(seen({ chinStops: -2.5, shadowStops: -3.5 })).toEqual(['the shadow under the nose 0.5 stop darker'])
  // Behind the face there is no edge at all.
  expect(seen({ edgeMm: null, isFull: false })).toEqual([])
  expect(seen({ shadowStops: -3.5, backdropStops: -0.8 })).toEqual([
    'the backdrop 1.2 stops lighter',
    'the shadow under the nose 0.5 stop darker',
  ])
  expect(seen({ pattern: 'Rembrandt' })).toEqual(['pattern Rembrandt, not loop'])
})

test('an edge that changed too little for the eye is told with its figure beside what is seen', () => {
  expect(verdictOf(differenceOf(figures, { ...figures, edgeMm: 21, backdropStops: -1.7 }))).toBe(
    'the backdrop 0.3 stop lighter; shadow edge 13 % narrower, too little for the eye',
  )
})

test('a golden panel is seen by its colour where no figure of light differs', () => {
  const first = firstSitting()
  const gold = setPanel(first, first.panels[0]!.id, { kind: 'gold' })
  expect(differenceOf(figures, figures, tintBetween(first, gold)).seen).toEqual(['warmer where the golden panel fills'])
  expect(differenceOf(figures, figures, tintBetween(gold, first)).seen).toEqual([
    'cooler where the golden panel filled',
  ])
  expect(differenceOf(figures, figures, tintBetween(gold, gold)).seen).toEqual([])
})

test('without a visible difference the verdict says what differs by the numbers: edge, stops, room, loss', () => {
  const other = { ...figures, edgeMm: 22, shadowStops: -3.2, roomM2: 1.1, lossStops: -1.1 }
  expect(verdictOf(differenceOf(figures, other))).toBe(
    'too little for the eye, by the numbers: shadow edge 8 % narrower, the shadow under the nose 0.2 stop darker, 31 % of the light into the room',
  )
  expect(differenceOf(figures, other).measured.at(-1)).toBe('costs 0.6 stop less')
  expect(verdictOf(differenceOf(figures, figures))).toBe('no difference of the light')
  const dark = {
    ...figures,
    edgeMm: null,
    exposureStops: null,
    shadowStops: null,
    chinStops: null,
    nearFarStops: null,
    backdropStops: null,
  }
  expect(verdictOf(differenceOf(figures, dark))).toBe('nothing to compare: the light on the face cannot be read')
})

const reading = (id: string, value: number | string | null) => ({
  ...{ id, value, unit: '', text: '', band: null, sentence: '', sourceId: null },
  place: { name: '', at: null },
  why: { formula: '', filled: '', source: '' },
})

test('figures are those of the named source; what has no number is left open', () => {
  const read = setFigures(
    [reading('edge.B.nose.full', 12), reading('edge.A.nose.full', 30), reading('ratio.nearFar', null)],
    'B',
  )
  expect([read.edgeMm, read.nearFarStops, read.lossStops, read.exposureStops]).toEqual([12, null, null, null])
  const none = { ...reading('edge.A.nose.full', 'no full shadow'), edgeMm: 46 }
  expect(setFigures([none], 'A')).toMatchObject({ edgeMm: 46, isFull: false })
})

test('at equal power half the f-number on the meter is two stops less light (N² law), also where the readings were raised since', () => {
  const metered = (fNumber: number, raisedStops = 0) =>
    setFigures([reading('exposure.nearCheek.disc.light', fNumber)], 'A', { fNumber: 8, raisedStops })
  expect(differenceOf(metered(8), metered(4)).seen).toEqual(['the picture 2.0 stops darker'])
  expect(differenceOf(metered(8), metered(8, 1)).seen).toEqual(['the picture 1.0 stop darker'])
})

/** An edge goes with how large its source appears (S·d/D); what fills a shadow comes by way of the room. */
test('why a set differs from the reference: how large its source appears, what it throws into the room, and neither where both are alike', () => {
  const half = {
    ...figures,
    edgeDeg: figures.edgeDeg! / 2,
    acrossDeg: figures.acrossDeg! / 2,
    edgeMm: figures.edgeMm! / 2,
  }
  expect(differenceReasons(half, figures, 'A')).toEqual([
    expect.stringMatching(
      /^A appears [\d.]+° wide square across the edge, [\d.]+° in the reference: the edge goes by that, so it is narrower\.$/,
    ),
  ])
  expect(differenceReasons({ ...figures, roomM2: 2 * figures.roomM2! }, figures, 'A')).toEqual([
    expect.stringMatching(/as in the reference: so the edge is about as wide\.$/),
    'For the same light on the face it throws 2.0 times as much into the room, which fills the shadow.',
  ])
  // As large from side to side, or larger, and yet narrower across the edge: the outline tells it.
  for (const times of [1, 2])
    expect(differenceReasons({ ...half, acrossDeg: times * figures.acrossDeg! }, figures, 'A')).toEqual([
      expect.stringMatching(/so it is narrower\. Across a slanting edge a rectangle counts from corner to corner/),
    ])
  // Wider to look at and yet a narrower edge: neither tells it.
  expect(differenceReasons({ ...half, edgeMm: 2 * figures.edgeMm! }, figures, 'A')).toEqual([])
  expect(differenceReasons(figures, figures, null)).toEqual([expect.stringMatching(/^The source is the same/)])
  // So near and large that the nose hides no point of the cheek from all of it.
  expect(differenceReasons({ ...figures, hidden: 0.92 }, figures, 'A')).toContain(
    'The nose hides 92 % of A at most, all in the reference: the rest shines into the shadow and makes it lighter.',
  )
  expect(differenceReasons(figures, { ...figures, hidden: 0.92 }, 'A')).toContain(
    'The nose hides all of A, 92 % in the reference: less of it shines into the shadow, which so is darker.',
  )
})

/** By the inverse-square law a lamp twice as near needs a quarter of the flux for the same light on the face. */
test('nearer, less goes into the room for the same light on the face; too near for its size, the nose no longer hides it', () => {
  const box = defaultModifier('softbox')
  const [near, middle, far] = [0.5, 1, 2].map((d) =>
    setFigures(take(setOf([lamp('A', { az: 45, el: 35, d, modifier: box })])).readings, 'A'),
  )
  expect(far!.roomM2! / middle!.roomM2!).toBeGreaterThan(3)
  expect(far!.roomM2! / middle!.roomM2!).toBeLessThan(4.5)
  expect(near!.roomM2!).toBeLessThan(middle!.roomM2!)
  expect(near!.hidden!).toBeLessThan(1)
  expect(far!.hidden).toBe(1)
  expect(differenceReasons(far!, middle!, 'A')).toContainEqual(expect.stringMatching(/throws 3\.\d times as much into/))
})
