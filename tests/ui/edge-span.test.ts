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
import { assembleRig, cropScale, rigSeen } from '../../src/rig'
import { firstSitting, type Sitting } from '../../src/sitting'
import { dot, normalize, subtract } from '../../src/space'
import { type EdgeSpan, edgeSpan, endsOf, type PlaceIn } from '../../src/ui/looks/edge-span'
import { SpanMarks } from '../../src/ui/looks/span-marks'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const sitting = firstSitting()
const rig = assembleRig(sitting, { figure })
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

test('its ends lie as far apart in the crop as the lens sees them, and each tick lies across its end', () => {
  const cut = edgeCut(rig)!
  const { cut: line, ticks } = edgeSpan(rig)!
  const lens = rigSeen(rig, 'edge').view.frame.origin
  const [a, b] = endsOf(cut).map((atM) => subtract(cut.place(atM), lens))
  const angle = Math.acos(dot(normalize(a!), normalize(b!)))
  const farM = Math.hypot(...subtract(cut.place(0), lens))
  const { widthMm } = cropScale(rig, 'edge')
  const aspect = 24 / 36
  const [from, to] = [line[0]!, line.at(-1)!]
  const apartMm = Math.hypot(to.x - from.x, (to.y - from.y) / aspect) * widthMm
  expect(Math.abs(apartMm / (1000 * angle * farM) - 1)).toBeLessThan(0.05)
  for (const [i, end] of [from, to].entries()) {
    const [p, q] = ticks[i]!
    expect((p!.x + q!.x) / 2).toBeCloseTo(end.x, 3)
    expect((p!.y + q!.y) / 2).toBeCloseTo(end.y, 3)
  }
})

test('over a crop that shows its middle at full width, marks keep their places: heights grow by shown over whole', () => {
  const span = {
    cut: [
      { x: 0.25, y: 0.5 },
      { x: 0.75, y: 0.6 },
    ],
    ticks: [],
    fullMm: 12.6,
    ruler: { line: [{ x: 0.2, y: 0.5 }], marks: [] },
  }
  const svg = (figured: boolean, of: EdgeSpan = span) =>
    renderToStaticMarkup(createElement(SpanMarks, { span: of, aspect: 2 / 3, shown: 6 / 5, figured }))
  // Half the breadth lies at half; a tenth of the height under the middle is 0.1 × (6/5) ÷ (2/3) = 18 % of what shows.
  expect(svg(true)).toContain('x1="25.00%" y1="50.00%" x2="75.00%" y2="68.00%"')
  expect(svg(true)).toContain('>13 mm<')
  expect(svg(false)).not.toContain('13 mm')
  expect(svg(true, { ...span, fullMm: null })).toContain('>no edge<')
})

const between = (a: PlaceIn, b: PlaceIn) => Math.hypot(b.x - a.x, (b.y - a.y) * 1.5)
const middle = ([a, b]: readonly PlaceIn[]): PlaceIn => ({ x: (a!.x + b!.x) / 2, y: (a!.y + b!.y) / 2 })

test('the ruler counts what the number counts: marks between its two ends times 5 mm are the width, whatever the skin does', () => {
  for (const modifier of [box(0.6), box(1.2)]) {
    const { cut, fullMm, ruler } = edgeSpan(assembleRig(lit(modifier), { figure }))!
    const marks = ruler.marks.map(middle)
    // Of a 24 × 36 frame, a share of the height is 1.5 times one of the width; marks lie evenly but for the lens's perspective.
    const each = between(marks[0]!, marks.at(-1)!) / (marks.length - 1)
    const width = between(cut[0]!, cut.at(-1)!)
    expect(Math.abs((5 * width) / each / fullMm! - 1)).toBeLessThan(0.04)
    expect(Math.min(...marks.map((mark) => between(mark, cut[0]!)))).toBeLessThan(1e-4)
  }
})

test('under an overcast sky the close-up is the one of a lamp at its mark: no edge, but a ruler as long as theirs', () => {
  const [sky, lamp] = [{ kind: 'overcast-sky', illuminanceLx: 10_000 }, box(0.6)].map((modifier) =>
    assembleRig(lit(modifier), { figure }),
  )
  expect(rigSeen(sky!, 'edge').view).toEqual(rigSeen(lamp!, 'edge').view)
  const span = edgeSpan(sky!)!
  expect([span.cut, span.ticks, span.fullMm]).toEqual([[], [], null])
  const length = ({ ruler }: EdgeSpan) => between(ruler.line[0]!, ruler.line.at(-1)!)
  expect(Math.abs(length(span) / length(edgeSpan(lamp!)!) - 1)).toBeLessThan(0.04)
})
