/**
 * What the figures of plan, elevation and enlarged edge cover, on the panes of the page's three sizes; what is covered is counted
 * in another way than the drawing does, by samples along the lines.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { drawElevation, drawPlan, insideOf, legible, type Placement, type Shape, toPane } from '../../src/paper'
import { assembleRig, placeLandmarks } from '../../src/rig'
import { addSource, readSitting, type Sitting, setSourcePlace } from '../../src/sitting'
import { type Pane, roomOn, shortened } from '../../src/ui/drawing/fit'
import { framed, onItsElevation, onItsPlan } from '../../src/ui/drawing/placed'
import { windowOf } from '../../src/ui/drawing/window'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const TEXT = 15
const pane = (width: number, height: number, titlePx: number): Pane => ({ width, height, textPx: TEXT, titlePx })
/** Plan and elevation as the page has them, rounded. */
const PANES = {
  desk: { plan: pane(488, 520, 40), elevation: pane(488, 335, 40), words: null },
  tablet: { plan: pane(288, 292, 30), elevation: pane(288, 292, 30), words: 'narrow' },
  phone: { plan: pane(195, 344, 30), elevation: pane(195, 314, 30), words: 'tight' },
} as const
type Size = keyof typeof PANES

const shipped = readdirSync('scenes')
  .filter((name) => name.endsWith('.sitting.json'))
  .map((name): [string, Sitting] => {
    const read = readSitting(readFileSync(`scenes/${name}`, 'utf8'))
    if ('problems' in read) throw new Error(name)
    return [name.replace('.sitting.json', ''), read.sitting]
  })

type Words = Extract<Shape, { kind: 'text' }>
type Drawn = { readonly shapes: readonly Shape[]; readonly at: Placement }

/** The drawing as its pane shows it, and apart what its window does. */
function drawnOn(sitting: Sitting, size: Size, selected = sitting.sources[0]!.id) {
  const rig = assembleRig(sitting, { figure })
  const input = { sitting, rig, selected, units: 'metres' as const }
  const { words, ...panes } = PANES[size]
  const own = { plan: drawPlan(input), elevation: drawElevation(input) }
  const pair = words ? { plan: shortened(own.plan, words), elevation: shortened(own.elevation, words) } : own
  const frame = framed(pair, panes.plan, panes.elevation, null)
  const window = windowOf(pair.plan)
  const placed = { plan: onItsPlan(pair.plan, window, frame), elevation: onItsElevation(pair.elevation, window, frame) }
  return (['plan', 'elevation'] as const).flatMap((name): (Drawn & { readonly pane: Pane | null })[] => {
    const { drawing, at } = placed[name]
    const shapes = legible(drawing.shapes, at, TEXT, roomOn(panes[name]))
    const windows = shapes.flatMap((shape) =>
      shape.kind === 'window' ? [{ shapes: shape.shapes, at: insideOf(shape, at), pane: null }] : [],
    )
    return [{ shapes, at, pane: panes[name] }, ...windows]
  })
}

/** Figures of what is measured about the thing in hand: its tape, its angles, its edge. */
const measures = ({ shapes }: Drawn): Words[] =>
  shapes.filter((shape): shape is Words => shape.kind === 'text' && /^tape |°$| mm$/.test(shape.text) && !!shape.along)

/** Pixels of drawn lines under the words: letters of 0.48 by 0.76 of the text's size, their middle 0.34, 0.64 over or 0.71 under their point. */
function coveredPx(words: Words, { shapes, at }: Drawn, heavy: boolean): number {
  const turn = (words.angleDeg * Math.PI) / 180
  const [x, y] = toPane(at, words.at)
  const lift = { on: 0.34, over: 0.64, under: -0.71 }[words.stands] * TEXT
  const half = (words.text.length * 0.48 * TEXT) / 2
  const aside = { start: half, middle: 0, end: -half }[words.anchor]
  let px = 0
  for (const shape of shapes) {
    if (shape.kind !== 'line' || (heavy && shape.weight !== 'cut' && shape.weight !== 'object')) continue
    const points = [...shape.points, ...(shape.closed ? shape.points.slice(0, 1) : [])].map((p) => toPane(at, p))
    for (const [i, [bx, by]] of points.slice(1).entries()) {
      const [ax, ay] = points[i]!
      const long = Math.hypot(bx - ax, by - ay)
      const count = Math.max(1, Math.ceil(4 * long))
      for (let k = 0; k < count; k++) {
        const [dx, dy] = [ax + ((bx - ax) * (k + 0.5)) / count - x, ay + ((by - ay) * (k + 0.5)) / count - y]
        const along = dx * Math.cos(turn) + dy * Math.sin(turn)
        const up = dx * Math.sin(turn) - dy * Math.cos(turn) - lift
        if (Math.abs(along - aside) < half && Math.abs(up) < 0.38 * TEXT) px += long / count
      }
    }
  }
  return px
}

test.each(shipped)(
  '%s: no figure of the thing in hand lies on its gear, on the sitter or across more than two thin lines',
  (_, sitting) => {
    for (const size of Object.keys(PANES) as Size[])
      for (const drawn of drawnOn(sitting, size))
        for (const words of measures(drawn)) {
          const where = `${size}: ${words.text}`
          expect(coveredPx(words, drawn, true), where).toBeLessThan(8)
          expect(coveredPx(words, drawn, false), where).toBeLessThan(24)
        }
  },
)

test('a tape that is shorter than the words about it stands beside the gear, not on it', () => {
  const sitting = shipped.find(([name]) => name === 'notice-board')![1]
  const [posed] = assembleRig(sitting, { figure }).figures
  const near = setSourcePlace(sitting, sitting.sources[0]!.id, { tapeM: 0.61 }, placeLandmarks(posed!))
  const [plan] = drawnOn(near, 'desk')
  const tape = measures(plan!).filter(({ text }) => text.startsWith('tape'))
  expect(tape.length).toBe(1)
  expect(coveredPx(tape[0]!, plan!, true)).toBeLessThan(8)
})

test('what a hand let go lies where it was let go: both drawings keep their places while they fit, and a set half as large has its own', () => {
  const sitting = shipped.find(([name]) => name === 'notice-board')![1]
  const { plan: planPane, elevation: elevationPane } = PANES.desk
  const pairOf = (set: Sitting) => {
    const input = {
      sitting: set,
      rig: assembleRig(set, { figure }),
      selected: set.sources[0]!.id,
      units: 'metres' as const,
    }
    return { plan: drawPlan(input), elevation: drawElevation(input) }
  }
  const moved = (dx: number) => {
    const [key, ...others] = sitting.sources
    const [x, y, z] = key!.centreM
    return { ...sitting, sources: [{ ...key!, centreM: [x + dx, y, z] as const }, ...others] } as Sitting
  }
  const wide = framed(pairOf(moved(0.3)), planPane, elevationPane, null)
  const own = framed(pairOf(sitting), planPane, elevationPane, null)
  expect(own.plan.scale).not.toBe(wide.plan.scale)
  const after = framed(pairOf(sitting), planPane, elevationPane, wide)
  expect([after.plan, after.elevation]).toEqual([wide.plan, wide.elevation])
  // What leaves its place but has room at the scale is only slid.
  const aside = { ...own, plan: { ...own.plan, x: own.plan.x + 200 } }
  expect(framed(pairOf(sitting), planPane, elevationPane, aside).plan).toEqual(own.plan)
  // On another pane, and where it would be drawn half as large as there is room for, it is placed anew.
  expect(framed(pairOf(sitting), { ...planPane }, elevationPane, wide).plan).toEqual(own.plan)
  const out = framed(pairOf(moved(1.5)), planPane, elevationPane, null)
  expect(out.plan.scale).toBeLessThan(0.8 * own.plan.scale)
  expect(framed(pairOf(sitting), planPane, elevationPane, out).plan.scale).toBe(out.plan.scale)
  const far = framed(pairOf(moved(6)), planPane, elevationPane, null)
  expect(far.plan.scale).toBeLessThan(0.5 * own.plan.scale)
  expect(framed(pairOf(sitting), planPane, elevationPane, far).plan).toEqual(own.plan)
})

/** The rectangle of words as it is turned, by the letters of coveredPx: its middle, its way along, half its length and height, pixels. */
function rectOf(words: Words, at: Placement) {
  const size = words.size === 'letter' ? 1.27 * TEXT : TEXT
  const turn = (words.angleDeg * Math.PI) / 180
  const half = (words.text.length * 0.48 * size) / 2
  const [x, y] = toPane(at, words.at)
  const lift = { on: 0.34, over: 0.64, under: -0.71 }[words.stands] * size
  const aside = { start: half, middle: 0, end: -half }[words.anchor]
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  return { x: x + aside * c + lift * s, y: y + aside * s - lift * c, c, s, half, high: 0.36 * size }
}

/** Whether a point of a fine grid over the one lies in the other. */
function overlap(one: ReturnType<typeof rectOf>, other: ReturnType<typeof rectOf>): boolean {
  for (let u = -1; u <= 1; u += 0.05)
    for (let v = -1; v <= 1; v += 0.25) {
      const [along, up] = [u * one.half, v * one.high]
      const [dx, dy] = [one.x + along * one.c - up * one.s - other.x, one.y + along * one.s + up * one.c - other.y]
      const isIn =
        Math.abs(dx * other.c + dy * other.s) < other.half && Math.abs(dy * other.c - dx * other.s) < other.high
      if (isIn) return true
    }
  return false
}

const first = shipped.find(([name]) => name === 'notice-board')![1]
const added = addSource(first)
const aside = setSourcePlace(
  first,
  first.sources[0]!.id,
  { azimuthFromLensDeg: 60, elevationDeg: 51, tapeM: 1.4 },
  placeLandmarks(assembleRig(first, { figure }).figures[0]!),
)
const besides = addSource(aside)
test.each([
  ['as it is opened', first, first.sources[0]!.id],
  ['with a second lamp in hand', added.sitting, added.id],
  ['with the first lamp farther off and a second one', besides.sitting, besides.id],
])(
  'no two labels meet, and the name of the lens and of the cut lie on no line: the first sitting %s',
  (_, sitting, id) => {
    for (const size of Object.keys(PANES) as Size[])
      for (const drawn of drawnOn(sitting, size, id)) {
        const all = drawn.shapes.filter((shape): shape is Words => shape.kind === 'text')
        const met = all.flatMap((one, i) =>
          all
            .slice(i + 1)
            .flatMap((two) =>
              overlap(rectOf(one, drawn.at), rectOf(two, drawn.at)) ? [`${size}: ${one.text} on ${two.text}`] : [],
            ),
        )
        expect(met).toEqual([])
        for (const words of all.filter(({ text }) => text === '105 mm' || text === 'square cut')) {
          expect(coveredPx(words, drawn, false), `${size}: ${words.text}`).toBeLessThan(5)
        }
      }
  },
)
