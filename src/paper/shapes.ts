import type { Dash, Point2, Shape, Weight } from './types'

interface LineStyle {
  readonly weight?: Weight
  readonly dash?: Dash
  readonly pencil?: boolean
  readonly fill?: 'none' | 'sheet' | 'tint'
  readonly closed?: boolean
}

export const line = (points: readonly Point2[], style: LineStyle = {}): Shape => ({
  kind: 'line',
  points,
  closed: style.closed ?? false,
  weight: style.weight ?? 'object',
  dash: style.dash ?? 'solid',
  pencil: style.pencil ?? false,
  fill: style.fill ?? 'none',
})

export const circle = (centre: Point2, radiusM: number, style: LineStyle = {}): Shape => ({
  kind: 'circle',
  centre,
  radiusM,
  weight: style.weight ?? 'object',
  dash: style.dash ?? 'solid',
  pencil: style.pencil ?? false,
  fill: style.fill ?? 'none',
})

interface TextStyle {
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly angleDeg?: number
  readonly size?: 'label' | 'letter'
  readonly tone?: 'ink' | 'ink2' | 'pencil'
  readonly stands?: 'on' | 'over' | 'under'
  readonly short?: string
  readonly least?: string
  readonly along?: readonly [Point2, Point2]
  readonly spare?: boolean
}

export const text = (at: Point2, words: string, style: TextStyle = {}): Extract<Shape, { kind: 'text' }> => ({
  kind: 'text',
  at,
  text: words,
  anchor: style.anchor ?? 'start',
  angleDeg: style.angleDeg ?? 0,
  size: style.size ?? 'label',
  tone: style.tone ?? 'ink',
  stands: style.stands ?? 'on',
  short: style.short ?? null,
  ...(style.least ? { least: style.least } : {}),
  ...(style.along ? { along: style.along } : {}),
  ...(style.spare ? { spare: true } : {}),
})

export const between = (a: Point2, b: Point2, t: number): Point2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
export const lengthOf = (a: Point2, b: Point2): number => Math.hypot(b[0] - a[0], b[1] - a[1])

interface DimensionStyle {
  readonly pencil?: boolean
  /** Whether the figure may leave the middle of the line for a clearer place. */
  readonly slides?: boolean
}

/** A dimension: thin line with 45° ticks and its figure above the line, readable from below or from the right. */
export function dimension(a: Point2, b: Point2, words: string, style: DimensionStyle = {}): Shape[] {
  if (!(lengthOf(a, b) > 0)) return []
  const { pencil = false, slides = false } = style
  const angle = readableAngle(a, b)
  return [
    ...dimensionLine(a, b, TICK_M, pencil),
    text(between(a, b, 0.5), words, {
      anchor: 'middle',
      angleDeg: angle,
      tone: pencil ? 'pencil' : 'ink',
      stands: 'over',
      ...(slides ? { along: [a, b] as const } : {}),
    }),
  ]
}

export const TICK_M = 0.025

/** The line of a dimension with its 45° ticks, without a figure. */
export function dimensionLine(a: Point2, b: Point2, tickM: number, pencil: boolean): Shape[] {
  const size = lengthOf(a, b)
  if (!(size > 0)) return []
  const along: Point2 = [(b[0] - a[0]) / size, (b[1] - a[1]) / size]
  const half: Point2 = [(along[0] - along[1]) * tickM, (along[1] + along[0]) * tickM]
  const tick = (at: Point2): Shape =>
    line(
      [
        [at[0] - half[0], at[1] - half[1]],
        [at[0] + half[0], at[1] + half[1]],
      ],
      { weight: 'thin', pencil },
    )
  return [line([a, b], { weight: 'dimension', pencil }), tick(a), tick(b)]
}

/** Turned so that it is never upside down: from −90 (read from the right) up to, not including, +90. */
export function readableAngle(a: Point2, b: Point2): number {
  let angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI
  while (angle >= 90 - 1e-6) angle -= 180
  while (angle < -90 - 1e-6) angle += 180
  return angle
}

/** An arc about a centre between two page angles (radians, clockwise from +x), in steps of about 3°. */
export function arc(centre: Point2, radiusM: number, from: number, to: number, style: LineStyle = {}): Shape {
  const steps = Math.max(2, Math.ceil(Math.abs(to - from) / 0.05))
  const points = Array.from({ length: steps + 1 }, (_, i): Point2 => {
    const angle = from + ((to - from) * i) / steps
    return [centre[0] + radiusM * Math.cos(angle), centre[1] + radiusM * Math.sin(angle)]
  })
  return line(points, { weight: 'dimension', ...style })
}

/** How far from the middle of its way to and from the corner an angle's figure may slide, as a share of that middle. */
const FIGURE_SLIDES = 0.45

/** The figure of an angle, on its bisector: middle is its page angle, radians clockwise from +x. */
export function angleFigure(corner: Point2, middle: number, radiusM: number, words: string): Shape {
  const out = (share: number): Point2 => [
    corner[0] + share * radiusM * Math.cos(middle),
    corner[1] + share * radiusM * Math.sin(middle),
  ]
  return text(out(1), words, { anchor: 'middle', along: [out(1 - FIGURE_SLIDES), out(1 + FIGURE_SLIDES)] })
}

/** Short strokes behind a cut line, as a draughtsman hatches what is not looked into. */
export function hatchBehind(a: Point2, b: Point2, sideX: number, sideY: number, stepM: number): Shape[] {
  const count = Math.max(2, Math.round(lengthOf(a, b) / stepM))
  return Array.from({ length: count }, (_, i): Shape => {
    const at = between(a, b, (i + 0.5) / count)
    return line([at, [at[0] + sideX, at[1] + sideY]], { weight: 'thin' })
  })
}
