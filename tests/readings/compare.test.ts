/** What is told of the way from one set to another: thresholds are common practice, no source. */
import { expect, test } from 'vitest'
import { type SetFigures, seenDifference, setFigures } from '../../src/readings'

const figures: SetFigures = {
  ...{ edgeMm: 24, tenToNinetyMm: 16, acrossDeg: 51, highDeg: 51, lossStops: -1.7 },
  ...{ shadowStops: -3, nearFarStops: -0.6, backdropStops: -2, energyJ: 24, pattern: 'loop' },
}

test('an edge within a quarter of its width and light within 0.3 stop are no visible difference', () => {
  expect(seenDifference(figures, figures)).toEqual([])
  expect(seenDifference(figures, { ...figures, edgeMm: 19, shadowStops: -3.29, backdropStops: -1.71 })).toEqual([])
  expect(seenDifference({ ...figures, edgeMm: null }, { ...figures, edgeMm: null })).toEqual([])
})

test('beyond them it is told in times and stops, the widest change of light first', () => {
  expect(seenDifference(figures, { ...figures, edgeMm: 72 })).toEqual(['edge 3.0 times as wide'])
  expect(seenDifference(figures, { ...figures, edgeMm: 6 })).toEqual(['edge 25 % as wide'])
  expect(seenDifference(figures, { ...figures, edgeMm: null })).toEqual(['no full shadow is left'])
  expect(seenDifference({ ...figures, edgeMm: null }, figures)).toEqual(['there is a full shadow'])
  expect(seenDifference(figures, { ...figures, shadowStops: -3.5, backdropStops: -0.8 })).toEqual([
    'the backdrop 1.2 stops lighter',
    'the shadow 0.5 stop deeper',
  ])
  expect(seenDifference(figures, { ...figures, pattern: 'Rembrandt' })).toEqual(['Rembrandt in place of loop'])
})

test('figures are those of the named source; what has no number is left open', () => {
  const reading = (id: string, value: number | string | null) => ({
    ...{ id, value, unit: '', text: '', band: null, sentence: '', sourceId: null },
    place: { name: '', at: null },
    why: { formula: '', filled: '', source: '' },
  })
  const read = setFigures(
    [reading('edge.B.nose.full', 12), reading('edge.A.nose.full', 30), reading('ratio.nearFar', null)],
    'B',
  )
  expect([read.edgeMm, read.nearFarStops, read.lossStops]).toEqual([12, null, null])
})
