import { type EdgeRays, edgeWidthM } from '../readings'
import { dimensionLine, hatchBehind, line, text } from './shapes'
import type { Point2, Shape } from './types'

/** A source by what it is called beside its picture. */
export interface CauseSeen {
  readonly name: string
  readonly rays: EdgeRays
}

/** A small drawing of why an edge is as wide as it is. Its plane: ems of its labels, x to the right, y down. */
export interface CauseDrawing {
  readonly widthEm: number
  readonly heightEm: number
  readonly shapes: readonly Shape[]
  /** So many times as large as before the nose everything behind it is drawn. */
  readonly larger: number
  /** Of each source the similar triangles in numbers: '1: 620 mm × gap 31.3 mm ÷ distance 1500 mm = edge 13 mm'. */
  readonly sums: readonly string[]
  readonly description: string
}

/** Of the words beside the cheek, of the first dimension line there, and from one to the next. */
const WORDS_EM = 8.5
const FIRST_EM = 0.6
const NEXT_EM = 0.8
const LINE_EM = 1.3
const MARGIN_EM = 0.5
/** Of the room for rays, what lies behind the nose. */
const BEHIND = 0.28
/** Height over width, and its bounds in ems; under that the dimensions along the light. */
const HEIGHT = { share: 0.42, least: 10, most: 15 }
const FOOT_EM = 2

/**
 * The rims of each source, both rays past the tip of the nose, and on the cheek what lies between them. The light runs from left to right,
 * square to the cheek, as the reading counts it. Lengths before the nose have one scale and those behind it another; as each keeps its
 * angles, a ray is straight all the way, which is the cause. All sources share these scales. widthEm: of the place that it has.
 */
export function drawEdgeCause(seen: readonly CauseSeen[], widthEm: number): CauseDrawing {
  const heightEm = Math.min(HEIGHT.most, Math.max(HEIGHT.least, HEIGHT.share * widthEm))
  const middle = heightEm / 2
  const rays = seen.map((each) => each.rays)
  const labelsEm = WORDS_EM + FIRST_EM + NEXT_EM * seen.length
  const room = widthEm - labelsEm - MARGIN_EM
  const steepest = ({ low, high }: EdgeRays) => Math.max(Math.abs(low), Math.abs(high))
  /** So many ems to either side of the middle ray. */
  const half = middle - 2 * LINE_EM
  const gapEm = Math.min(BEHIND * room, half / Math.max(...rays.map(steepest)))
  const farM = Math.max(...rays.map(({ distanceM }) => distanceM ?? 0), LEAST_M)
  const before = Math.min(
    (room - gapEm) / farM,
    ...rays.map((each) => half / (steepest(each) * (each.distanceM ?? farM))),
  )
  const cheekX = widthEm - labelsEm
  const noseX = cheekX - gapEm
  const behind = gapEm / Math.max(...rays.map(({ gapM }) => gapM))
  const tip: Point2 = [noseX, middle]
  /** Where a ray is, metres before the nose (negative: behind it). */
  const along = (slope: number, m: number): Point2 => {
    const scale = m < 0 ? behind : before
    return [noseX - m * scale, middle - m * scale * slope]
  }
  /** Where a wider source stands that stands where this one does. */
  const standsAt = (other: EdgeRays, far: number, own: EdgeRays): readonly number[] => {
    const x = along(0, other.distanceM ?? farM)[0]
    return widerBy(other, own) && Math.abs(x - along(0, far)[0]) < 1 ? [x] : []
  }
  const shapes = seen.flatMap(({ rays: { low, high, gapM, distanceM } }, i) => {
    const far = distanceM ?? farM
    const withinX = Math.min(...rays.flatMap((other) => standsAt(other, far, rays[i]!)))
    // On its own rays a little behind a wider one that stands in its place, so that both are seen.
    const back = Number.isFinite(withinX) ? Math.min(BEHIND_WIDER_EM, withinX - ROOM_LEFT_EM) / before : 0
    const [top, foot] = [high, low].map((slope) => along(slope, far + Math.max(0, back))) as [Point2, Point2]
    const [lit, shade] = [low, high].map((slope) => along(slope, -gapM)) as [Point2, Point2]
    const aside = (p: Point2): Point2 => [cheekX + FIRST_EM + NEXT_EM * i, p[1]]
    return [
      line([tip, lit, shade], { closed: true, weight: 'dimension', fill: 'tint' }),
      line([top, shade], { weight: 'thin' }),
      line([foot, lit], { weight: 'thin' }),
      ...(distanceM === null ? [] : [line([top, foot], { weight: 'cut' })]),
      ...nameOf(nameAmong(seen, i), rays[i]!, top, foot, {
        isUnder: i % 2 === 1,
        withinX,
        isOne: seen.length === 1,
        roomEm: NAMES * noseX,
        untilX: noseX - BEFORE_NOSE_EM,
      }),
      ...dimensionLine(aside(lit), aside(shade), 0.25, true),
    ]
  })
  const widths = seen.map(
    ({ name, rays }) => `${seen.length > 1 ? `${name}: ` : ''}edge ${millimetres(edgeWidthM(rays))}`,
  )
  const [first] = rays
  return {
    widthEm,
    heightEm: heightEm + FOOT_EM,
    shapes: [
      ...[
        ...face(tip, cheekX, heightEm, Math.max(...rays.map(({ high }) => high)) * gapEm),
        ...shapes,
        // The first stands above the others once all is turned over.
        ...labels(widths.toReversed(), widthEm - WORDS_EM, middle, rays, gapEm),
      ].map((shape) => turnedOver(shape, heightEm)),
      ...alongLight(first!, [along(0, first!.distanceM ?? farM)[0], noseX, cheekX], heightEm),
    ],
    larger: Math.round(behind / before),
    sums: seen.map((each) => `${seen.length > 1 ? `${each.name}: ` : ''}${sumOf(each.rays)}`),
    description: `From both rims of ${seen.length > 1 ? 'each lamp' : 'the lamp'} a ray runs past the tip of the nose to the cheek. Between the two lies the edge: ${widths.join('; ')}.`,
  }
}

/**
 * Worked out with the nose below; drawn with the nose and its shade above and the light below, as the enlarged picture has them under a
 * lamp that stands higher than the face. Words keep their height over and under a line.
 */
function turnedOver(shape: Shape, heightEm: number): Shape {
  if (shape.kind === 'line') return { ...shape, points: shape.points.map(([x, y]): Point2 => [x, heightEm - y]) }
  if (shape.kind === 'text') return { ...shape, at: [shape.at[0], heightEm - shape.at[1] + CAPITAL_EM] }
  return shape
}
/** Of a capital letter. */
const CAPITAL_EM = 0.7

/** How far behind a wider source a narrower one in its place is drawn, and what stays free of the drawing's left rim. */
const BEHIND_WIDER_EM = 0.5
const ROOM_LEFT_EM = 0.1

/** So much of an em a letter of a name takes at most. */
const LETTER_EM = 0.52
const spread = ({ low, high }: EdgeRays): number => high - low
const widerBy = (a: EdgeRays, b: EdgeRays): boolean => spread(a) > 1.05 * spread(b)

interface NamePlace {
  readonly isUnder: boolean
  /** One that stands where a wider one stands has its name within its rims, left of both, as that one's rays pass over them; infinite: none does. */
  readonly withinX: number
  readonly isOne: boolean
  /** For a name over or under its source; and where it ends at the latest, as the nose begins there. */
  readonly roomEm: number
  readonly untilX: number
}

/** Of sources whose rims are the same the first bears the names of all: '1 and 2'; null: an earlier one has said it. */
function nameAmong(seen: readonly CauseSeen[], i: number): string | null {
  const alike = seen.filter(({ rays }) => isAlike(rays, seen[i]!.rays))
  return alike[0] === seen[i] ? alike.map(({ name }) => name).join(' and ') : null
}
const isAlike = (a: EdgeRays, b: EdgeRays): boolean =>
  (['low', 'high', 'distanceM'] as const).every((key) => Math.abs((a[key] ?? 0) - (b[key] ?? 0)) < SAME)
/** Rims closer than this are drawn as one, and metres. */
const SAME = 0.002

/** 'lamp 1: 0.62 m', or as much of it as there is room for. Names stand over and under their sources by turns, clear of each other. */
function nameOf(
  name: string | null,
  rays: EdgeRays,
  top: Point2,
  foot: Point2,
  { isUnder, withinX, isOne, roomEm, untilX }: NamePlace,
): readonly Shape[] {
  if (name === null) return []
  const width = rays.distanceM === null ? '' : `: ${rounded(spread(rays) * rays.distanceM)}`
  const lamp = isOne ? 'lamp' : `lamp${name.includes(' ') ? 's' : ''} ${name}`
  const told = (room: number) => [`${lamp}${width}`, lamp].find((each) => each.length * LETTER_EM <= room)
  if (Number.isFinite(withinX)) {
    const room = Math.min(withinX, top[0]) - WITHIN_EM
    const y = (top[1] + foot[1]) / 2 + 0.35
    const at = (y: number, words: string) => text([room, y], words, { anchor: 'end' })
    const isHigh = Math.abs(top[1] - foot[1]) > 2 * LINE_EM
    if (isHigh && width !== '' && told(room) === lamp)
      return [at(y + LINE_EM / 2, lamp), at(y - LINE_EM / 2, width.slice(2))]
    return [at(y, told(room) ?? name)]
  }
  // To the right, where rays from farther off have come in under it.
  const words = told(roomEm) ?? lamp
  const x = Math.max(0, Math.min(top[0] - WITHIN_EM, untilX - words.length * LETTER_EM))
  return [text([x, isUnder ? foot[1] + 1.1 : top[1] - 0.5], words, { anchor: 'start' })]
}
/** Of the way to the nose, what a name over or under its source may have. */
const NAMES = 0.6
/** Of a face's profile, which begins before the tip of the nose where a name stands under it. */
const BEFORE_NOSE_EM = 1.5
/** From a name to its source. */
const WITHIN_EM = 0.4

/** Under the drawing: how far the first source is from the nose, and the nose from the cheek. */
function alongLight(
  { gapM, distanceM }: EdgeRays,
  [sourceX, noseX, cheekX]: readonly [number, number, number],
  y: number,
): readonly Shape[] {
  const gap = text([noseX + 0.2, y + 1.7], `gap ${Math.round(1000 * gapM)} mm`, { tone: 'ink' })
  const gapLine = dimensionLine([noseX, y + 0.6], [cheekX, y + 0.6], 0.25, false)
  if (distanceM === null) return [gap, ...gapLine]
  const whole = `distance ${rounded(distanceM)}`
  const words = whole.length * LETTER_EM <= noseX - sourceX ? whole : 'distance'
  return [
    gap,
    ...gapLine,
    text([noseX - 0.6, y + 1.7], words, { anchor: 'end', tone: 'ink' }),
    ...dimensionLine([sourceX, y + 0.6], [noseX, y + 0.6], 0.25, false),
  ]
}

/** Lamp is to distance as edge is to gap: what the drawing shows, in numbers. From as far as the sun, only the angle counts. */
function sumOf(rays: EdgeRays): string {
  const [gap, edge] = [`gap ${(1000 * rays.gapM).toFixed(1)} mm`, `edge ${millimetres(edgeWidthM(rays))}`]
  if (rays.distanceM === null) return `${gap} × ${spread(rays).toFixed(4)} (its angle as a share) = ${edge}`
  return `${rounded(spread(rays) * rays.distanceM)} × ${gap} ÷ distance ${rounded(rays.distanceM)} = ${edge}`
}
/** Of a source and its distance: to a centimetre, in the unit of their names and tapes; as one stands over the other, it falls out. */
const rounded = (m: number): string => `${m.toFixed(2)} m`

/** Where every source is as far as the sun, some distance before the nose has to do. */
const LEAST_M = 0.1

/** The nose, cut, and the cheek behind it, hatched where no part of a source shows. */
function face([noseX, middle]: Point2, cheekX: number, heightEm: number, shadeEm: number): readonly Shape[] {
  const foot = heightEm - LINE_EM
  return [
    line(
      [
        [noseX, middle],
        [noseX + NOSE_EM, foot],
        [noseX - NOSE_EM, foot],
      ],
      { closed: true, fill: 'sheet' },
    ),
    line([
      [cheekX, MARGIN_EM],
      [cheekX, foot],
    ]),
    ...hatchBehind([cheekX, middle + shadeEm], [cheekX, foot], 0.35, 0.35, 0.35),
    text([noseX, heightEm - 0.2], 'nose', { anchor: 'middle' }),
    text([cheekX, heightEm - 0.2], 'cheek', { anchor: 'middle' }),
  ]
}
const NOSE_EM = 0.6

/** Beside the cheek: what shows from its lit part, how wide the edge is, what shows from its shade. */
function labels(
  widths: readonly string[],
  x: number,
  middle: number,
  rays: readonly EdgeRays[],
  gapEm: number,
): readonly Shape[] {
  const half = (widths.length * LINE_EM) / 2
  const first = middle - half + 0.35 + LINE_EM / 2
  const lit = Math.min(first - LINE_EM, middle + gapEm * Math.min(...rays.map(({ low }) => low)))
  const shade = Math.max(
    first + widths.length * LINE_EM,
    middle + gapEm * Math.max(...rays.map(({ high }) => high)) + 0.7,
  )
  return [
    text([x, lit], 'light: lamp in full'),
    ...widths.map((words, i) => text([x, first + i * LINE_EM], words, { tone: 'pencil' })),
    text([x, shade], 'shade: lamp hidden'),
  ]
}

/** As the reading tells it: tenths only where a whole millimetre would be much of it. */
const millimetres = (m: number): string => `${(1000 * m).toFixed(m < 0.005 ? 1 : 0)} mm`
