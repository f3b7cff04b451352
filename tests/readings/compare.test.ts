/** What is told of the way from one set to another: thresholds are common practice, no source. */
import { expect, test } from 'vitest'
import { differenceOf, type SetFigures, setFigures, verdictOf } from '../../src/readings'

const figures: SetFigures = {
  ...{ edgeMm: 24, tenToNinetyMm: 16, acrossDeg: 51, highDeg: 51, lossStops: -1.7, roomSr: 3.5, exposureStops: null },
  ...{ shadowStops: -3, nearFarStops: -0.6, backdropStops: -2, energyJ: 24, pattern: 'loop' },
}
const seen = (change: Partial<SetFigures>, from = figures) => differenceOf(from, { ...figures, ...change }).seen

test('an edge within a quarter of either width and light under 0.3 stop are no visible difference', () => {
  expect(seen({})).toEqual([])
  expect(seen({ edgeMm: 20, shadowStops: -3.24, backdropStops: -1.76 })).toEqual([])
  expect(seen({ edgeMm: null }, { ...figures, edgeMm: null })).toEqual([])
})

test('what would be shown as 0.3 stop or as 25 % is never told as none, whichever way it is counted', () => {
  expect(seen({ shadowStops: -2.74 })).toEqual(['the shadow 0.3 stop lighter'])
  expect(seen({ edgeMm: 29.9 })).toEqual(['edge 25 % wider'])
  // A quarter of the narrower one, a fifth of the wider one.
  expect(seen({ edgeMm: 19.2 })).toEqual(['edge 20 % narrower'])
})

test('beyond them it is told in times and stops, the widest change of light first', () => {
  expect(seen({ edgeMm: 72 })).toEqual(['edge 3.0 times as wide'])
  expect(seen({ edgeMm: 6 })).toEqual(['edge 25 % as wide'])
  expect(seen({ edgeMm: null })).toEqual(['no full shadow is left'])
  // Wider than the nose both times: 10 to 90 % tells how much.
  expect(seen({ edgeMm: null, tenToNinetyMm: 24 })).toEqual(['no full shadow is left, edge 50 % wider'])
  expect(seen({ edgeMm: null, tenToNinetyMm: 40 }, { ...figures, edgeMm: null })).toEqual(['edge 2.5 times as wide'])
  expect(seen({}, { ...figures, edgeMm: null })).toEqual(['there is a full shadow'])
  expect(seen({ shadowStops: -3.5, backdropStops: -0.8 })).toEqual([
    'the backdrop 1.2 stops lighter',
    'the shadow 0.5 stop deeper',
  ])
  expect(seen({ pattern: 'Rembrandt' })).toEqual(['Rembrandt in place of loop'])
})

test('without a visible difference the verdict says what differs by the numbers: edge, stops, room, loss', () => {
  const other = { ...figures, edgeMm: 22, shadowStops: -3.2, roomSr: 1.1, lossStops: -1.1 }
  expect(verdictOf(differenceOf(figures, other))).toBe(
    'no visible difference of the light; edge 8 % narrower; the shadow 0.2 stop deeper; 31 % of the light into the room',
  )
  expect(differenceOf(figures, other).measured.at(-1)).toBe('costs 0.6 stop less')
  expect(verdictOf(differenceOf(figures, figures))).toBe('no visible difference of the light')
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
})

test('at equal power half the f-number on the meter is two stops less light (N² law), also where the readings were raised since', () => {
  const metered = (fNumber: number, raisedStops = 0) =>
    setFigures([reading('exposure.nearCheek.disc.light', fNumber)], 'A', { fNumber: 8, raisedStops })
  expect(differenceOf(metered(8), metered(4)).seen).toEqual(['the picture 2.0 stops darker'])
  expect(differenceOf(metered(8), metered(8, 1)).seen).toEqual(['the picture 1.0 stop darker'])
})
