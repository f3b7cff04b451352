import type { BufferGeometry } from 'three'
import { areaOf, type Emission, luminanceFromSrgb, overcastHorizontal, type SurfacePoint } from '../photometry'
import type { Rig, RigSource, View } from '../rig'
import { addScaled, directionToWorld, dot, normalize, pointToLocal, pointToWorld, subtract, type Vec3 } from '../space'
import type { SeenObject } from './objects'
import { isInView } from './reach'
import { Vertices } from './vertices'

/** Lit faces that can show, as the camera sees them: the coat carries the luminance towards the camera per 1 cd·s, 1/m². */
export function faceGeometry(rig: Rig, objects: readonly SeenObject[]): BufferGeometry {
  const vertices = new Vertices()
  objects.forEach((object, i) => {
    if (object.kind !== 'lit face') return
    if (faceShows(object.emitter, rig.view)) addFace(vertices, object.emitter, rig.view.frame.origin, i + 1)
    if (object.emitter.emission.gate.kind === 'overcast') addGround(vertices, rig, object.emitter, i + 1)
  })
  return vertices.geometry()
}

const FACE_CELLS = 24
const SEARCH_CELLS = 8

/** May any of it fall into the picture? The ground under a sky always may. */
export function faceShows({ frame, emission }: RigSource['emitters'][number], view: View): boolean {
  if (emission.gate.kind === 'overcast') return true
  const radiusM = Math.sqrt(areaOf(emission.surface)) / SEARCH_CELLS
  const cells = Array.from({ length: SEARCH_CELLS }, (_, i) => (i + 0.5) / SEARCH_CELLS)
  return cells.some((u) =>
    cells.some((v) => isInView({ centre: pointToWorld(frame, emission.at(u, v).point), radiusM }, view)),
  )
}

/** A canopy's lit face lies this share of its width before the drawn cloth, and bends more finely than a flat one. */
const CAP_FACE_LIFT = 3e-3
const CAP_CELLS = 72

interface FaceVertex {
  readonly at: SurfacePoint
  /** Of the emission's own frame. */
  readonly point: Vec3
}

/** Where an emission stays what it is, so do the vertices of its lit face. */
const faceGrids = new WeakMap<Emission, readonly FaceVertex[]>()

const rowsOf = ({ surface }: Emission): number => (surface.shape === 'cap' ? CAP_CELLS : FACE_CELLS)

function faceGrid(emission: Emission): readonly FaceVertex[] {
  const known = faceGrids.get(emission)
  if (known) return known
  const { surface } = emission
  const rows = rowsOf(emission)
  const liftM = surface.shape === 'cap' ? CAP_FACE_LIFT * surface.diameterM : 0
  const made = Array.from({ length: (FACE_CELLS + 1) * (rows + 1) }, (_, i) => {
    const [u, v] = [(i % (FACE_CELLS + 1)) / FACE_CELLS, Math.floor(i / (FACE_CELLS + 1)) / rows]
    const at = emission.at(Math.min(u, 1 - 1e-6), Math.min(v, 1 - 1e-6))
    return { at, point: addScaled(at.point, at.normal, liftM) }
  })
  faceGrids.set(emission, made)
  return made
}

/** The sky is drawn down to its rim, under the eye's own level: between its last corners it would fade out else. */
function seenLuminance(emission: Emission, at: SurfacePoint, [x, y, z]: Vec3): number {
  return emission.luminance(at, emission.gate.kind === 'overcast' ? [x, y, Math.max(z, HORIZON)] : [x, y, z])
}
const HORIZON = 1e-6

/** Under the document's own piece of ground, which is drawn over it; wider than the sky, so that no gap is left at its rim. */
const GROUND_UNDER_M = 0.01
const GROUND_OVER = 1.1

/**
 * The ground beyond its size, out to the horizon: level, matt and open to all of the sky, so L = ρ·E/π with E = 7π/9 of the
 * zenith's luminance (CIE overcast sky). It is seen, and sends no light up.
 */
function addGround(vertices: Vertices, rig: Rig, { emission }: RigSource['emitters'][number], object: number): void {
  const floor = rig.surfaces.find(({ kind }) => kind === 'floor')
  const { surface } = emission
  if (floor?.front.kind !== 'matt' || surface.shape !== 'cap' || rig.surfaces.some(({ kind }) => kind === 'wall'))
    return
  const [x, y, z] = floor.rect.centre
  const luminance = (luminanceFromSrgb(floor.front.albedo) * overcastHorizontal(1)) / Math.PI
  const radiusM = (GROUND_OVER * surface.diameterM) / 2
  vertices.grid(
    1,
    FACE_CELLS,
    (u, v) => {
      const [away, angle] = [u * radiusM, 2 * Math.PI * v]
      const point: Vec3 = [x + away * Math.cos(angle), y - GROUND_UNDER_M, z - away * Math.sin(angle)]
      return { point, normal: [0, 1, 0], coat: [luminance, luminance, luminance, 0] }
    },
    object,
  )
}

function addFace(vertices: Vertices, { frame, emission }: RigSource['emitters'][number], eye: Vec3, object: number) {
  const grid = faceGrid(emission)
  const local = pointToLocal(frame, eye)
  const shows = ({ at, point }: FaceVertex) => dot(subtract(local, point), at.normal) > 0
  if (!grid.some(shows)) return
  let next = 0
  vertices.grid(
    FACE_CELLS,
    rowsOf(emission),
    () => {
      const { at, point } = grid[next++]
      const away = subtract(local, point)
      const luminance = dot(away, at.normal) > 0 ? seenLuminance(emission, at, normalize(away)) : 0
      const coat = [luminance, luminance, luminance, 0] as const
      return { point: pointToWorld(frame, point), normal: directionToWorld(frame, at.normal), coat }
    },
    object,
  )
}
