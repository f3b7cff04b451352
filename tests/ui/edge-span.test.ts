/** Where a lesson marks the edge that it measures, held against the reading and against a pinhole: angles from the lens by dot products. */
import { readFileSync } from 'node:fs'
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import type { Modifier } from '../../src/gear'
import { bodiesOf } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import { edgeCut, takeReadings } from '../../src/readings'
import { assembleRig, cropScale, type Rig, rigSeen } from '../../src/rig'
import { firstSitting, readSitting, type Sitting } from '../../src/sitting'
import { addScaled, dot, normalize, subtract } from '../../src/space'
import { type EdgeSpan, endsOf, type PlaceIn, placeInLoupe, edgeSpan as spanOf } from '../../src/ui/looks/edge-span'
import { SpanKey, SpanMarks } from '../../src/ui/looks/span-marks'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const sitting = firstSitting()
const rig = assembleRig(sitting, { figure })
/** A sitter that faces the lens and a lamp so far to the front that its edge lies on the cheek from end to end: the set of lesson 2. */
const startOf = (file: string): Sitting => {
  const read = readSitting(JSON.parse(readFileSync(`scenes/lessons/${file}.lesson.json`, 'utf8')).start)
  if (!('sitting' in read)) throw new Error('no sitting')
  return read.sitting
}
const facing = startOf('02-size-makes-softness')
const lampOf = (of: Sitting, modifier: Modifier): Sitting => ({
  ...of,
  sources: [{ ...of.sources[0]!, modifier }],
})
const atFront = (modifier: Modifier): Sitting => lampOf(facing, modifier)
const edgeSpan = (of: Rig) => spanOf(of, createRayCaster(bodiesOf(of).bodies))
const box = (diameterM: number): Modifier => ({
  ...sitting.sources[0]!.modifier,
  kind: 'dish',
  diameterM,
  grid: 'none',
  bodyM: 0.3,
})
const lit = (modifier: Modifier): Sitting => ({
  ...sitting,
  sources: [{ ...sitting.sources[0]!, modifier }],
  room: { ...sitting.room, outdoors: true },
})

test('its width is that of the reading beside it', () => {
  const bodies = bodiesOf(rig)
  const { readings } = takeReadings({ sitting, rig, bodies, caster: createRayCaster(bodies.bodies), paths: 0 })
  const { value } = readings.find(({ id }) => id === 'edge.A.nose.full')!
  expect(edgeSpan(rig)!.fullMm).toBeCloseTo(value as number, 3)
})

test('the ruler’s edge is as long in the crop as the lens sees the edge, and a tick leads to each of its ends', () => {
  const rig = assembleRig(atFront(box(0.6)), { figure })
  const cut = edgeCut(rig)!
  const { ruler, ticks } = edgeSpan(rig)!
  const lens = rigSeen(rig, 'edge').view.frame.origin
  const [a, b] = endsOf(cut).map((atM) => subtract(cut.place(atM), lens))
  const angle = Math.acos(dot(normalize(a!), normalize(b!)))
  const farM = Math.hypot(...subtract(cut.place(0), lens))
  const { widthMm } = cropScale(rig, 'edge')
  const [from, to] = endsIn(ruler)
  const apartMm = between(from, to) * widthMm
  // Less by perspective, as it lies aside on a cheek that slants away.
  expect(Math.abs(apartMm / (1000 * angle * farM) - 1)).toBeLessThan(0.06)
  const ends = endsOf(cut).map((atM) => placeInLoupe(rig, cut.place(atM))!)
  for (const [i, end] of [from, to].entries()) {
    const [near, far] = ticks[i]!
    // On one line: from beside the end of the edge through that of the ruler.
    expect(between(near!, end) + between(end, far!)).toBeCloseTo(between(near!, far!), 3)
    expect(between(ends[i]!, near!) + between(near!, end)).toBeCloseTo(between(ends[i]!, end), 3)
  }
})

test('ticks begin at the ends of the edge, nothing lies between them, and short ticks leave out what the reading leaves out', () => {
  const rig = assembleRig(atFront(box(0.6)), { figure })
  const cut = edgeCut(rig)!
  const { ruler, ticks, inner } = edgeSpan(rig)!
  const { widthMm } = cropScale(rig, 'edge')
  const ends = endsOf(cut).map((atM) => placeInLoupe(rig, cut.place(atM))!)
  const onEdge = (share: number): PlaceIn => ({
    x: ends[0]!.x + share * (ends[1]!.x - ends[0]!.x),
    y: ends[0]!.y + share * (ends[1]!.y - ends[0]!.y),
  })
  const all = [...ruler.line, ...ruler.marks.flat(), ...ticks.flat(), ...inner.flat()]
  for (const [i, [begin]] of ticks.entries()) expect(between(begin!, ends[i]!) * widthMm).toBeLessThan(0.5)
  for (const share of [0.25, 0.5, 0.75])
    for (const place of all) expect(between(place, onEdge(share)) * widthMm).toBeGreaterThan(3)
  // In the plane of the ruler lengths go as the widths do: 10 to 90 % against the whole.
  const [a, b] = inner.map((tick) => tick.at(-1)!)
  const share = between(a!, b!) / between(...endsIn(ruler))
  expect(Math.abs(share / (cut.tenToNinetyM / cut.fullM) - 1)).toBeLessThan(0.03)
})

test('over a crop that shows its middle at full width, marks keep their places: heights grow by shown over whole', () => {
  const span: EdgeSpan = {
    ticks: [],
    inner: [],
    ends: ['seen', 'seen'],
    fullMm: 12.6,
    isAllRound: false,
    ruler: {
      line: [
        { x: 0.25, y: 0.5 },
        { x: 0.75, y: 0.6 },
      ],
      marks: [],
      drawnMm: 10,
      hiddenMm: 0,
    },
  }
  const svg = (figured: boolean, of: EdgeSpan = span) =>
    renderToStaticMarkup(createElement(SpanMarks, { span: of, aspect: 2 / 3, shown: 6 / 5, figured, inner: true }))
  // Half the breadth lies at half; a tenth of the height under the middle is 0.1 × (6/5) ÷ (2/3) = 18 % of what shows.
  expect(svg(true)).toContain('x1="25.00%" y1="50.00%" x2="75.00%" y2="68.00%"')
  expect(svg(true)).toContain('>13 mm<')
  expect(svg(false)).not.toContain('13 mm')
  expect(svg(true, { ...span, fullMm: null })).toContain('>no edge<')
  expect(svg(true, { ...span, fullMm: null, isAllRound: true })).toContain('>wider than the face<')
  expect(svg(true, { ...span, ends: ['seen', 'past'] })).toContain('>10 of 13 mm<')
  // Nought stands over its beginning, the width under its end.
  expect(svg(true)).toMatch(/x="25\.00%" y="50\.00%" dy="-0\.6em"[^>]*>0</)
  expect(svg(true)).toMatch(/x="89\.00%" y="68\.00%" dy="1\.7em"[^>]*end"[^>]*>13 mm</)
})

/** By rays on the sitter's own mesh: how far before a place of the cheek the light from the middle of the lamp is stopped, metres. */
test('the end that is called shade lies in the nose’s shadow, and the one that is called light in the light', () => {
  const { bodies } = bodiesOf(rig)
  const caster = createRayCaster(bodies)
  const cut = edgeCut(rig)!
  const [shade, light] = endsOf(cut)
  const lamp = rig.sources[0]!.frame.origin
  const FROM_M = 0.15
  const stoppedBefore = (atM: number) => {
    const way = normalize(subtract(cut.place(atM), lamp))
    // From between the lamp's own cloth and the face.
    return FROM_M - caster.nearest(addScaled(cut.place(atM), way, -FROM_M), way)!.distance
  }
  // By the nose, or by nothing before the cheek, which lies within some millimetres of the plane that the cut is drawn on, or falls away from it.
  expect(stoppedBefore(shade)).toBeGreaterThan(0.01)
  expect(stoppedBefore(light)).toBeLessThan(0.005)
})

test('the short ticks are there where they are asked for', () => {
  const span = edgeSpan(rig)!
  const lines = (inner: boolean) =>
    renderToStaticMarkup(createElement(SpanMarks, { span, aspect: 2 / 3, shown: 6 / 5, figured: false, inner })).split(
      '<line',
    ).length
  // Each is drawn twice, light on dark.
  expect(lines(true) - lines(false)).toBe(4)
})

/** The first and the last of the places that the ruler leads over, from the edge's beginning. */
const endsIn = ({ line }: EdgeSpan['ruler']): readonly [PlaceIn, PlaceIn] => [line[0]!, line.at(-1)!]
const between = (a: PlaceIn, b: PlaceIn) => Math.hypot(b.x - a.x, (b.y - a.y) * 1.5)

test('the ruler counts what the number counts: marks between its two ends times 5 mm are the width, whatever the skin does', () => {
  for (const modifier of [box(0.6), box(1.2)]) {
    const { fullMm, ruler } = edgeSpan(assembleRig(atFront(modifier), { figure }))!
    // The last is that of the edge's own end.
    const marks = ruler.marks.slice(0, -1).map(([onRuler]) => onRuler!)
    // Of a 24 × 36 frame, a share of the height is 1.5 times one of the width; marks lie evenly but for the lens's perspective.
    const each = between(marks[0]!, marks.at(-1)!) / (marks.length - 1)
    const width = between(...endsIn(ruler))
    expect(Math.abs((5 * width) / each / fullMm! - 1)).toBeLessThan(0.04)
    expect(between(marks[0]!, endsIn(ruler)[0])).toBeLessThan(1e-4)
    expect(between(ruler.marks.at(-1)![0]!, endsIn(ruler)[1])).toBeLessThan(1e-4)
    // One less than 2 mm before the end would merge with its mark.
    expect(marks.length).toBe(Math.floor((fullMm! - 2) / 5) + 1)
  }
})

test('under an overcast sky the close-up is the one of a lamp at its mark, and there is no ruler: the edge has no ends', () => {
  const [sky, lamp] = [{ kind: 'overcast-sky', illuminanceLx: 10_000 }, box(0.6)].map((modifier) =>
    assembleRig(lit(modifier), { figure }),
  )
  expect(rigSeen(sky!, 'edge').view).toEqual(rigSeen(lamp!, 'edge').view)
  const { ruler, ticks, inner, ends, fullMm, isAllRound } = edgeSpan(sky!)!
  expect([ruler.line, ruler.marks, ticks, inner, ends, fullMm]).toEqual([[], [], [], [], [], null])
  expect(isAllRound).toBe(true)
  expect(edgeSpan(lamp!)!.isAllRound).toBe(false)
})

/** By rays through the lens onto the sitter's mesh: how far before a place of the cut something hides it, metres; negative: it lies before the face. */
test('an end that the nose hides, or past which the face falls away, has no line to it and is told', () => {
  for (const [sitting, ends, words] of [
    [atFront(box(0.6)), ['seen', 'seen'], '0: none of the lamp; end: all'],
    [atFront(box(1.2)), ['hidden', 'seen'], 'begins behind the nose'],
    [
      lampOf({ ...facing, sources: [{ ...facing.sources[0]!, centreM: [-0.748, 1.811, 0.748] }] }, box(0.85)),
      ['hidden', 'past'],
      'from behind the nose to past the face',
    ],
  ] as const) {
    const rig = assembleRig(sitting, { figure })
    const span = edgeSpan(rig)!
    expect(span.ends).toEqual(ends)
    const caster = createRayCaster(bodiesOf(rig).bodies)
    const cut = edgeCut(rig)!
    const lens = rigSeen(rig, 'edge').view.frame.origin
    for (const [i, atM] of endsOf(cut).entries()) {
      const way = subtract(cut.place(atM), lens)
      const hiddenM = Math.hypot(...way) - (caster.nearest(lens, normalize(way))?.distance ?? Number.POSITIVE_INFINITY)
      if (ends[i] === 'seen') expect(Math.abs(hiddenM)).toBeLessThan(0.009)
      else expect(ends[i] === 'hidden' ? hiddenM : -hiddenM).toBeGreaterThan(0.009)
    }
    expect(span.ticks).toHaveLength(ends.filter((end) => end === 'seen').length)
    // Past the face nothing is ruled.
    const marks = span.ruler.marks.length - 1
    const all = Math.floor((span.fullMm! - 2) / 5) + 1
    expect(ends[1] === 'past' ? marks < all : marks === all).toBe(true)
    const key = renderToStaticMarkup(createElement(SpanKey, { span }))
    expect(key.replace(/<[^>]*>/g, '')).toBe(words)
    // No nought stands in plain sight of an edge that begins behind the nose, and the ruler is dashed until the edge comes forth.
    const marked = renderToStaticMarkup(
      createElement(SpanMarks, { span, aspect: 2 / 3, shown: 6 / 5, figured: false, inner: false }),
    )
    expect(marked.includes('>0<')).toBe(ends[0] === 'seen')
    const comesForth = endsOf(cut)[0] + span.ruler.hiddenMm / 1000
    if (ends[0] === 'seen') expect(span.ruler.hiddenMm).toBe(0)
    else {
      const beforeAndAfter = [-0.003, 0.003].map((byM) => {
        const way = subtract(cut.place(comesForth + byM), lens)
        return Math.hypot(...way) - caster.nearest(lens, normalize(way))!.distance
      })
      expect(beforeAndAfter[0]).toBeGreaterThan(0.009)
      expect(beforeAndAfter[1]).toBeLessThan(0.009)
    }
  }
})
