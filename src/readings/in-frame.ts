import { projectToFrame } from '../camera'
import { litFaceOutline, type RigSource } from '../rig'
import { panelWords } from '../sitting'
import { add, type Body, lerp, type Rect, scale, type Vec3 } from '../space'
import type { Stage } from './stage'
import type { Caution } from './types'

const EDGE_STEPS = 8

/** Gear that the camera sees, by the corners of what the source brings. */
export function sourceInFrame(stage: Stage, source: RigSource): Caution | null {
  const { letter, remote } = source
  if (remote?.kind === 'around') return null
  const { bodies } = stage.scene
  const own = bodies.gearOf.get(source.id) ?? new Set<number>()
  const rim = litFaceOutline(source)
  const points = [...edges(rim), ...[...own].flatMap((index) => cornersOf(bodies.bodies[index]!))]
  const seen = points.find((p) => shows(stage, p, own))
  if (!seen) return null
  const id = `caution.${letter}.inFrame`
  return remote
    ? { id, at: remote.markM, sentence: `${letter} is in the picture: no eye to an optical finder.` }
    : { id, at: seen, sentence: `${letter} is in the picture: raise it, move it out, or step in.` }
}

/** Panels that the camera sees. */
export function panelsInFrame(stage: Stage): readonly Caution[] {
  const { sitting, scene } = stage
  const { bodies, meanings } = scene.bodies
  return sitting.panels.flatMap((panel): Caution[] => {
    const own = new Set(
      meanings.flatMap((meaning, index) =>
        meaning.kind === 'surface' && (meaning.surface.of ?? meaning.surface.id) === panel.id ? [index] : [],
      ),
    )
    const seen = [...own].flatMap((index) => pointsOf(bodies[index]!)).find((p) => shows(stage, p, own))
    if (!seen) return []
    const sentence = `The ${panelWords(panel)} is in the picture: move it out, or step in.`
    return [{ id: `caution.${panel.id}.inFrame`, at: seen, sentence }]
  })
}

function shows({ scene }: Stage, p: Vec3, own: ReadonlySet<number>): boolean {
  const { view } = scene.rig
  const at = projectToFrame(p, view.frame, view)
  return at !== null && Math.abs(at.x) <= 1 && Math.abs(at.y) <= 1 && scene.caster.visible(view.frame.origin, p, own)
}

/** Over the whole of a board: one that is larger than the frame may have all its edges out of it. */
function pointsOf(body: Body): readonly Vec3[] {
  if (body.kind !== 'rectangle') return cornersOf(body)
  const { centre, halfU, halfV } = body.rect
  const steps = Array.from({ length: 2 * EDGE_STEPS + 1 }, (_, i) => i / EDGE_STEPS - 1)
  return steps.flatMap((u) => steps.map((v) => add(centre, add(scale(halfU, u), scale(halfV, v)))))
}

function cornersOf(body: Body): readonly Vec3[] {
  if (body.kind === 'rectangle') return corners(body.rect)
  const { positions } = body.mesh
  return Array.from({ length: positions.length / 3 }, (_, i) => [
    positions[3 * i]!,
    positions[3 * i + 1]!,
    positions[3 * i + 2]!,
  ])
}

const corners = ({ centre, halfU, halfV }: Rect): readonly Vec3[] =>
  [1, -1].flatMap((u) => [1, -1].map((v) => add(centre, add(scale(halfU, u), scale(halfV, v)))))

/** Along the edges: the picture's corner may show no more of a rim than a centimetre. */
const edges = (rim: readonly Vec3[]): readonly Vec3[] =>
  rim.flatMap((from, i) =>
    Array.from({ length: EDGE_STEPS }, (_, k) => lerp(from, rim[(i + 1) % rim.length]!, k / EDGE_STEPS)),
  )
