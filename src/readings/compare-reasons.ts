import { LEAST_TOLD, type SetFigures } from './compare'

/**
 * Why a set differs from the one that it is held against: how large its source appears, and what that throws into the room. letter: of the
 * source in which they differ; null: they differ in a panel. name: of what it is held against.
 */
export function differenceReasons(
  figures: SetFigures,
  against: SetFigures,
  letter: string | null,
  name = 'the reference',
): readonly string[] {
  if (letter === null) return ['The source is the same, so its edge is too: what differs is what the panel sends back.']
  return [
    edgeReason(figures, against, letter, name),
    roomReason(figures, against),
    hiddenReason(figures, against, letter, name),
  ].filter((words) => words !== null)
}

/** An edge goes by how wide its source appears across it, and by where the shadow falls: null where neither tells it. */
function edgeReason(figures: SetFigures, against: SetFigures, letter: string, name: string): string | null {
  const [width, other] = [figures.edgeDeg, against.edgeDeg]
  if (!width || !other || !figures.edgeMm || !against.edgeMm) return null
  const degrees = (value: number) => `${value.toFixed(value < 2 ? 1 : 0)}°`
  const edge = figures.edgeMm / against.edgeMm - 1
  if (Math.abs(width / other - 1) < LEAST_TOLD.edgeShare)
    return Math.abs(edge) < 2 * LEAST_TOLD.edgeShare
      ? `${letter} appears ${degrees(width)} wide square across the edge, as in ${name}: so the edge is about as wide.`
      : `${letter} appears ${degrees(width)} wide square across the edge, as in ${name}, but the shadow falls elsewhere: over another gap, or past another side of ${letter}.`
  if (Math.sign(edge) !== Math.sign(width - other)) return null
  const sides = (figures.acrossDeg ?? width) / (against.acrossDeg ?? other)
  const isOutlineOther = width > other ? sides < 1 + LEAST_TOLD.edgeShare : sides > 1 - LEAST_TOLD.edgeShare
  return [
    `${letter} appears ${degrees(width)} wide square across the edge, ${degrees(other)} in ${name}: the edge goes by that, so it is ${width > other ? 'wider' : 'narrower'}.`,
    isOutlineOther ? OUTLINE : '',
  ]
    .filter(Boolean)
    .join(' ')
}

/** Why what is as wide from side to side, or wider, may be narrower across an edge. */
const OUTLINE =
  'Across a slanting edge a rectangle counts from corner to corner, more than from side to side; of an umbrella that bulges to the face it is the rim that counts, which stands farther off than its middle.'

function roomReason({ roomM2 }: SetFigures, { roomM2: other }: SetFigures): string | null {
  if (!roomM2 || !other) return null
  const times = roomM2 / other
  if (Math.max(times, 1 / times) < LEAST_TOLD.roomTimes) return null
  return times > 1
    ? `For the same light on the face it throws ${times.toFixed(1)} times as much into the room, which fills the shadow.`
    : `For the same light on the face it throws ${(100 * times).toFixed(0)} % as much into the room, which fills the shadow less.`
}

/** A source that stands out on both sides of the nose shines into the darkest of its shadow itself. */
function hiddenReason(
  { hidden }: SetFigures,
  { hidden: other }: SetFigures,
  letter: string,
  name: string,
): string | null {
  if (hidden === null || other === null) return null
  const [now, then] = [hidden, other].map((share) => Math.round(100 * share))
  if (now === then) return null
  const share = (percent: number) => (percent === 100 ? 'all' : `${percent} %`)
  return now! < then!
    ? `The nose hides ${share(now!)} of ${letter} at most, ${share(then!)} in ${name}: the rest shines into the shadow and makes it lighter.`
    : `The nose hides ${share(now!)} of ${letter}, ${share(then!)} in ${name}: less of it shines into the shadow, which so is darker.`
}
