import { expect, test } from 'vitest'
import type { Reading } from '../../src/readings'
import { firstSitting } from '../../src/sitting'
import { arrange, firstFor } from '../../src/ui/arrange'
import { firstClause } from '../../src/ui/readings'

const of = (id: string, value: number | null, sentence: string): Reading => ({
  id,
  value,
  unit: '',
  text: value === null ? 'No ratio by name' : String(value),
  band: null,
  place: { name: '', at: null },
  sentence,
  why: { formula: '', filled: '', source: '' },
  sourceId: null,
})

test('first what is looked at first, last what this set has not got, and that once for one reason', () => {
  const readings = [
    of('ratio.keyFill', null, 'no source has the role fill.'),
    of('source.A.lowerEdge', 1.4, 'over the floor.'),
    of('ratio.highlightShadow', null, 'no source has the role fill.'),
    of('backdrop.stops', -2, 'on the backdrop.'),
    of('ratio.nearFar', null, 'one cheek gets no light at all.'),
  ]
  expect(arrange(readings, 'A').map(({ id }) => id)).toEqual([
    'backdrop.stops',
    'source.A.lowerEdge',
    'ratio.keyFill',
    'ratio.nearFar',
  ])
})

test('first of all stands what the thing in hand moves: a source its edge and near to far, a panel the depth of the shadow', () => {
  const sitting = firstSitting()
  const ids = ['face.pattern', 'backdrop.stops', 'edge.A.nose.depth', 'ratio.nearFar', 'edge.A.nose.full']
  const readings = ['exposure.nearCheek.disc.light', ...ids].map((id, i) => of(id, i, `is number ${i}.`))
  const first = (id: string) => arrange(readings, 'A', firstFor(sitting, id))[0]!.id
  const source = arrange(readings, 'A', firstFor(sitting, sitting.sources[0]!.id)).map(({ id }) => id)
  expect(source.slice(0, 3)).toEqual(['exposure.nearCheek.disc.light', 'edge.A.nose.full', 'ratio.nearFar'])
  expect([sitting.panels[0]!.id, sitting.sitters[0].id, 'backdrop'].map(first)).toEqual([
    'edge.A.nose.depth',
    'face.pattern',
    'backdrop.stops',
  ])
})

test('what is pinned stands before all, in its order, also while the set has not got it', () => {
  const readings = [
    of('backdrop.stops', -2, 'on the backdrop.'),
    of('source.A.lowerEdge', 1.4, 'over the floor.'),
    of('ratio.keyFill', null, 'no source has the role fill.'),
    of('ratio.highlightShadow', null, 'no source has the role fill.'),
  ]
  const pins = ['ratio.highlightShadow', 'source.A.lowerEdge', 'of.another.set']
  expect(arrange(readings, 'A', [], pins).map(({ id }) => id)).toEqual([
    'ratio.highlightShadow',
    'source.A.lowerEdge',
    'backdrop.stops',
    'ratio.keyFill',
  ])
})

test('where there is little room a sentence says its first clause', () => {
  expect(firstClause('is how deep the nose shadow on the cheek goes. What fills it: the room.')).toBe(
    'is how deep the nose shadow on the cheek goes.',
  )
  expect(firstClause('wide is the edge: very soft.')).toBe('wide is the edge.')
  expect(firstClause('over the floor is the lower edge of A.')).toBe('over the floor is the lower edge of A.')
})
