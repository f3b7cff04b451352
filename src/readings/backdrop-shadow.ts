import { directionThrough, projectToFrame } from '../camera'
import type { Probe } from '../meter'
import type { RigSource, Surface } from '../rig'
import { addScaled, cross, dot, length, normalize, type Rect, scale, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import type { PlaceLight } from './light-table'
import { litPoints } from './lit-points'
import { reading } from './reading'
import { powerFactor, type Stage } from './stage'
import type { Reading } from './types'
import { figure, lengthPhrase, signed } from './words'

/** Places of the frame that are looked through, across and up. */
const [ACROSS, UP] = [13, 19]
/** Of those in the shadow, asked for how much of the source they see. */
const MOST_ASKED = 12
/** The sitter comes forward by no more, m, and to this. */
const [FARTHEST_M, TO_M] = [4, 0.02]
/** A shadow less deep than this does not show. Common practice, no source. */
const SEEN = -0.1

/** Where the sitters' shadow by each source falls on what the frame shows of the backdrop, how deep, and how far forward loses it. */
export function shadowReadings(stage: Stage, bySource: readonly (readonly PlaceLight[])[]): readonly Reading[] {
  const backdrop = stage.scene.rig.surfaces.find(({ kind }) => kind === 'backdrop')
  if (!backdrop) return []
  const bounced = bySource.flat().reduce((sum, { indirect }) => sum + (indirect ?? 0), 0) / bySource.length
  return stage.scene.rig.sources
    .filter(({ on, remote }) => on && remote?.kind !== 'around')
    .map((source) => shadowReading(stage, source, backdrop, bounced))
}

const FORMULA = 'log₂(H in the shadow / H with the source in full view)'
const SOURCE = 'rays to the whole lit face; its middle says where the shadow lies'

function shadowReading(stage: Stage, source: RigSource, backdrop: Surface, bounced: number): Reading {
  const id = `backdrop.shadow.${source.letter}`
  const sight = sightOf(stage)
  const shadowed = sight.shadowed(backdrop.rect, source)
  const darkest = darkestOf(stage, sight, source, backdrop.rect, shadowed)
  const depth = darkest ? depthAt(stage, source, darkest, bounced) : 0
  if (!darkest || depth > SEEN)
    return reading({
      id,
      value: 'none',
      unit: '',
      text: 'none',
      place: { name: 'backdrop', at: darkest?.probe.point ?? null },
      sentence: `is what shows of a shadow by ${source.letter} on the backdrop${darkest ? ': it is too soft or too well filled' : ' in this frame'}.`,
      why: { formula: FORMULA, filled: darkest ? signed(depth, 2) : 'no place in it', source: SOURCE },
    })
  const forward = forwardM(sight, backdrop.rect, source)
  const way =
    forward === null
      ? `${lengthPhrase(FARTHEST_M, stage.units)} forward do not lose it: take ${source.letter} farther round or up`
      : `come ${lengthPhrase(forward, stage.units)} forward, camera and lights with you, and it has left the frame`
  return reading({
    id,
    value: depth,
    unit: 'stop',
    text: signed(depth),
    band: BANDS.shadow,
    place: { name: `backdrop, ${sight.where(darkest.probe.point)}`, at: darkest.probe.point },
    sentence: `is how deep the sitter's shadow by ${source.letter} falls on the backdrop, ${sight.where(darkest.probe.point)}: ${way}.`,
    why: {
      formula: FORMULA,
      filled: `${figure(100 * darkest.hidden)} % of ${source.letter} hidden; ${forward === null ? 'no end found' : `lost from ${figure(forward, 2)} m on`}`,
      source: SOURCE,
    },
  })
}

interface Darkest {
  readonly probe: Probe
  readonly hidden: number
}

/** Of the places in the shadow of the source's middle, the one from which least of its face is seen. */
function darkestOf(
  { scene }: Stage,
  sight: Sight,
  source: RigSource,
  rect: Rect,
  places: readonly Vec3[],
): Darkest | null {
  const step = Math.ceil(places.length / MOST_ASKED)
  const points = litPoints(source)
  const asked = places.filter((_, i) => i % step === 0)
  const hidden = asked.map((place) => points.filter((point) => sight.isShadowed(place, point)).length / points.length)
  const most = Math.max(...hidden)
  if (!(most > 0)) return null
  const normal = towards(rect, scene.rig.view.frame.origin)
  return { probe: { point: addScaled(asked[hidden.indexOf(most)]!, normal, 1e-3), normal }, hidden: most }
}

function depthAt(stage: Stage, source: RigSource, { probe, hidden }: Darkest, bounced: number): number {
  const own = stage.table.direct(source, probe, 'disc', false)
  const others = stage.scene.rig.sources
    .filter((other) => other !== source && other.on)
    .reduce((sum, other) => sum + stage.table.direct(other, probe, 'disc'), bounced)
  const [lit, dark] = [(own + others) * powerFactor(stage), ((1 - hidden) * own + others) * powerFactor(stage)]
  return lit > 0 && dark > 0 ? Math.log2(dark / lit) : lit > 0 ? -10 : 0
}

/** The least way forward on which no seen place of the paper is left in the shadow; null: none within FARTHEST_M. */
function forwardM(sight: Sight, rect: Rect, source: RigSource): number | null {
  const isLost = (forward: number) => sight.shadowed(sight.behind(rect, forward), source).length === 0
  if (!isLost(FARTHEST_M)) return null
  let [still, lost] = [0, FARTHEST_M]
  while (lost - still > TO_M) {
    const middle = (still + lost) / 2
    if (isLost(middle)) lost = middle
    else still = middle
  }
  return lost
}

interface Sight {
  /** Places of a backdrop there that the lens sees and that the sitters hide from the source's middle. */
  shadowed(rect: Rect, source: RigSource): readonly Vec3[]
  isShadowed(place: Vec3, from: Vec3): boolean
  /** The backdrop as it lies to sitter, camera and lights that have come forward together. */
  behind(rect: Rect, forwardM: number): Rect
  where(place: Vec3): string
}

function sightOf({ scene: { rig, bodies, caster } }: Stage): Sight {
  const { view } = rig
  const lens = view.frame.origin
  const indices = bodies.meanings.map((_, i) => i)
  const isFigure = (i: number) => bodies.meanings[i]!.kind === 'figure'
  const others = new Set(indices.filter((i) => !isFigure(i)))
  const isShadowed = (place: Vec3, from: Vec3) => !caster.visible(place, from, others)
  const directions = Array.from({ length: ACROSS * UP }, (_, i) =>
    directionThrough(share(i % ACROSS, ACROSS), share(Math.floor(i / ACROSS), UP), view.frame, view),
  )
  return {
    isShadowed,
    shadowed: (rect, source) =>
      directions
        .flatMap((direction) => onRect(rect, lens, direction))
        .filter((place) => isShadowed(place, source.frame.origin) && caster.visible(lens, place, others)),
    behind: (rect, forward) => ({ ...rect, centre: addScaled(rect.centre, towards(rect, lens), -forward) }),
    where: (place) => {
      const x = projectToFrame(place, view.frame, view)?.x ?? 0
      return Math.abs(x) < 0.2 ? 'behind the sitter' : `at camera ${x < 0 ? 'left' : 'right'}`
    },
  }
}

const share = (i: number, count: number): number => ((i + 0.5) / count) * 2 - 1

/** Unit normal of a rectangle on the side of a place. */
function towards({ centre, halfU, halfV }: Rect, place: Vec3): Vec3 {
  const normal = normalize(cross(halfU, halfV))
  return dot(normal, subtract(place, centre)) < 0 ? scale(normal, -1) : normal
}

/** Where a line of sight meets the rectangle; empty: it goes past. */
function onRect({ centre, halfU, halfV }: Rect, from: Vec3, direction: Vec3): Vec3[] {
  const normal = cross(halfU, halfV)
  const away = dot(subtract(centre, from), normal) / dot(direction, normal)
  if (!(away > 0)) return []
  const place = addScaled(from, direction, away)
  const across = (half: Vec3) => Math.abs(dot(subtract(place, centre), half)) / length(half) ** 2
  return across(halfU) <= 1 && across(halfV) <= 1 ? [place] : []
}
