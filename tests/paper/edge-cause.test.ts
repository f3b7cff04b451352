/** The drawing of an edge's cause, held against similar triangles (w = W · b / a), and its figures against the reading beside it. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf } from '../../src/meter'
import { drawEdgeCause, type Point2, type Shape } from '../../src/paper'
import { createRayCaster } from '../../src/rays'
import { type EdgeRays, edgeRaysOf, takeReadings } from '../../src/readings'
import { assembleRig } from '../../src/rig'
import { firstSitting, setModifier } from '../../src/sitting'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const wide = firstSitting()
const narrow = setModifier(wide, 'key', { diameterM: 0.5 })
const rigs = [wide, narrow].map((sitting) => assembleRig(sitting, { figure }))
const seen = rigs.map((rig, i) => ({ name: `${i + 1}`, rays: edgeRaysOf(rig)! }))
const lines = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'line' ? [shape] : []))
const apart = ([x, y]: Point2, [X, Y]: Point2) => Math.hypot(X - x, Y - y)

test.each([21, 37])(
  'on a place %i ems wide every ray is straight, and lamp to distance is as edge to gap',
  (widthEm) => {
    const { shapes, heightEm } = drawEdgeCause(seen, widthEm)
    const triangles = lines(shapes).filter(({ fill }) => fill === 'tint')
    const lamps = lines(shapes).filter(({ weight }) => weight === 'cut')
    const rays = lines(shapes).filter(({ weight, points }) => weight === 'thin' && apart(points[0]!, points[1]!) > 2)
    expect([triangles.length, lamps.length, rays.length]).toEqual([2, 2, 4])
    triangles.forEach(({ points: [tip, lit, shade] }, i) => {
      const [top, foot] = lamps[i]!.points as [Point2, Point2]
      const gap = lit![0] - tip![0]
      const far = tip![0] - top[0]
      expect(apart(top, foot) / far).toBeCloseTo(apart(lit!, shade!) / gap, 6)
      // The ray from the upper rim past the tip ends lowest.
      expect((tip![1] - top[1]) / far).toBeCloseTo((shade![1] - tip![1]) / gap, 6)
      expect((tip![1] - foot[1]) / far).toBeCloseTo((lit![1] - tip![1]) / gap, 6)
    })
    for (const shape of shapes)
      for (const [x, y] of shape.kind === 'line' ? shape.points : shape.kind === 'text' ? [shape.at] : []) {
        expect(x).toBeGreaterThanOrEqual(0)
        expect(x).toBeLessThanOrEqual(widthEm)
        expect(y).toBeGreaterThanOrEqual(0)
        expect(y).toBeLessThanOrEqual(heightEm)
      }
  },
)

/** [a, b]: what a line of numbers says its factors and its product are. */
const SUM = /^\d: ([\d.]+) m × gap ([\d.]+) mm ÷ distance ([\d.]+) m = edge ([\d.]+) mm$/

test.each([19, 21, 37])(
  'of three, two of which stand in one place, %i ems wide, each has a name clear of the others and of all lines; the sums come out',
  (widthEm) => {
    const all = [...seen, { name: '3', rays: twiceAsFar(seen[1]!.rays) }]
    const { shapes, sums } = drawEdgeCause(
      [all[1]!, all[2]!, all[0]!].map(({ rays }, i) => ({ rays, name: `${i + 1}` })),
      widthEm,
    )
    const texts = shapes.flatMap((shape) => (shape.kind === 'text' && /^(lamp )?\d/.test(shape.text) ? [shape] : []))
    const names = texts.filter(({ text }) => !/edge/.test(text))
    expect(names.filter(({ text }) => !SIZE.test(text)).length).toBe(3)
    // Each has a bar of its own, that of the narrower one a little aside.
    const bars = lines(shapes).filter(({ weight }) => weight === 'cut')
    expect(new Set(bars.map(({ points }) => points[0]![0].toFixed(1))).size).toBe(3)
    const boxes = names.map(({ at: [x, y], text, anchor }) => {
      const width = LETTER_EM * text.length
      const from = anchor === 'end' ? x - width : x
      return { from, to: from + width, top: y - 0.7, foot: y }
    })
    boxes.forEach((a, i) => {
      expect(a.from, names[i]!.text).toBeGreaterThanOrEqual(0)
      for (const b of boxes.slice(i + 1))
        expect(a.to < b.from || b.to < a.from || a.foot < b.top || b.foot < a.top, names[i]!.text).toBe(true)
      // Rays and rims, by their places along the name.
      for (const { points, weight } of lines(shapes)) {
        if (weight !== 'thin' && weight !== 'cut') continue
        const [p, q] = points as readonly [Point2, Point2]
        for (let k = 0; k <= 100; k++) {
          const [x, y] = [p[0] + ((q[0] - p[0]) * k) / 100, p[1] + ((q[1] - p[1]) * k) / 100]
          expect(x > a.from && x < a.to && y > a.top && y < a.foot, `${names[i]!.text} at ${x} ${y}`).toBe(false)
        }
      }
    })
    for (const sum of sums) {
      const [, width, gap, distance, edge] = SUM.exec(sum)!.map(Number)
      // Similar triangles, to the last figure that is told.
      expect(Math.abs((width! * gap!) / distance! / edge! - 1), sum).toBeLessThan(0.04)
    }
  },
)
/** Of a source, in a line of its own under its name. */
const SIZE = /^[\d.]+ m$/
/** Of a lower-case letter or figure of the page's type, ems. */
const LETTER_EM = 0.5
/** Twice as large at twice the distance: the same rays. */
const twiceAsFar = (rays: EdgeRays): EdgeRays => ({ ...rays, distanceM: 2 * rays.distanceM! })

test('the width that it names is that of the reading; a wider source has a wider edge at the same scale', () => {
  const { shapes } = drawEdgeCause(seen, 37)
  const words = shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
  const widths = rigs.map((rig, i) => {
    const bodies = bodiesOf(rig)
    const sitting = [wide, narrow][i]!
    const { readings } = takeReadings({ sitting, rig, bodies, caster: createRayCaster(bodies.bodies), paths: 0 })
    const { text, unit, value } = readings.find(({ id }) => id === 'edge.A.nose.full')!
    expect(words).toContain(`${i + 1}: edge ${text} ${unit}`)
    return Number(value)
  })
  const drawn = lines(shapes)
    .filter(({ fill }) => fill === 'tint')
    .map(({ points }) => apart(points[1]!, points[2]!))
  expect(drawn[0]! / drawn[1]!).toBeCloseTo(widths[0]! / widths[1]!, 2)
})

test('two sources whose rims are the same are named once, with both numbers', () => {
  const { shapes } = drawEdgeCause([seen[0]!, { name: '2', rays: { ...seen[0]!.rays } }], 37)
  const names = shapes.flatMap((shape) => (shape.kind === 'text' && /^lamp/.test(shape.text) ? [shape.text] : []))
  expect(names).toEqual([expect.stringMatching(/^lamps 1 and 2(: [\d.]+ m)?$/)])
})
