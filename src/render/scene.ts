import { BufferAttribute, type BufferGeometry } from 'three'
import { HAIR_ROUGHNESS } from '../photometry'
import type { Rig, RigFigure } from '../rig'
import { ballMesh, normalize, scale, subtract, type Vec3 } from '../space'
import { type Changes, sameCoats } from './changes'
import { faceGeometry } from './lit-faces'
import { isEye, type PosedPart, type SeenObject } from './objects'
import { addCorners } from './places'
import { solidShows } from './reach'
import { figureParts, SitterGeometry } from './sitter-geometry'
import { addSolidSide, coatOf } from './solid-mesh'
import { moveStrands, strandGeometry } from './strands'
import { Vertices } from './vertices'

/** What the G-buffer draws: sitters, the set, gear, and lit faces, each one geometry so that one edit rebuilds one of them. */
export interface SceneGeometry {
  readonly figures: SitterGeometry
  /** Lashes and wet edges of the figures; and brows and hairs of the hairline, in the frames of the heads. */
  readonly lashes: BufferGeometry
  readonly hairs: BufferGeometry
  readonly set: BufferGeometry
  readonly gear: BufferGeometry
  readonly faces: BufferGeometry
}

const NAMES = ['figures', 'lashes', 'hairs', 'set', 'gear', 'faces'] as const

export function disposeScene(old: SceneGeometry, kept: SceneGeometry | null = null): void {
  for (const name of NAMES) if (old[name] !== kept?.[name]) old[name].dispose()
}

export const sameGeometry = (a: SceneGeometry | null, b: SceneGeometry): boolean =>
  NAMES.every((name) => a?.[name] === b[name])

/** What an edit leaves stays the same geometry. */
export function nextScene(
  old: SceneGeometry | null,
  before: Rig | null,
  rig: Rig,
  changes: Changes,
  objects: readonly SeenObject[],
): SceneGeometry {
  if (!old || !before) {
    const figures = figureGeometry(objects)
    return {
      figures,
      lashes: strandGeometry(objects, figures, 'withLids'),
      hairs: strandGeometry(objects, figures, 'withHead'),
      set: setGeometry(rig, objects),
      gear: gearGeometry(rig, objects),
      faces: faceGeometry(rig, objects),
    }
  }
  const keepsFigures = !changes.figures || moveFigures(old.figures, before, rig, objects)
  const figures = keepsFigures ? old.figures : figureGeometry(objects)
  if (keepsFigures && changes.figures && !sameRest(before, rig)) moveStrands(old.lashes, objects, 'withLids')
  if (keepsFigures && !sameShapes(before, rig)) moveStrands(old.hairs, objects, 'withHead')
  return {
    figures,
    lashes: keepsFigures ? old.lashes : strandGeometry(objects, figures, 'withLids'),
    hairs: keepsFigures ? old.hairs : strandGeometry(objects, figures, 'withHead'),
    set: changes.set ? setGeometry(rig, objects) : old.set,
    gear: changes.gear ? unlessEmpty(gearGeometry(rig, objects), old.gear) : old.gear,
    faces: changes.faces ? unlessEmpty(faceGeometry(rig, objects), old.faces) : old.faces,
  }
}

/** Sources out of the picture move most: nothing gives way to nothing. */
const unlessEmpty = (next: BufferGeometry, old: BufferGeometry): BufferGeometry =>
  next.index?.count === 0 && old.index?.count === 0 ? old : next

/** Parts that shine: skin and eyes. Eyes are wet; theirs is a mirror in all but name. */
const EYE_ROUGHNESS = 0.08
const roughnessOf = (figure: RigFigure, name: string): number => {
  if (name === 'skin') return figure.skinRoughness
  if (name === 'glasses') return figure.frameRoughness ?? 0
  return name.startsWith('eye') ? EYE_ROUGHNESS : 0
}

/** What the camera's pass draws of a sitter in ways of its own: groups of the figures' geometry by their place in the list. */
export const FIGURE_LOOKS = ['plain', 'eye', 'hair', 'skin', 'cloth'] as const
type FigureLook = (typeof FIGURE_LOOKS)[number]
function lookOf(part: PosedPart): FigureLook {
  if (isEye(part)) return 'eye'
  if (part.part.combed) return 'hair'
  if (part.name === 'skin') return 'skin'
  return part.part.seams ? 'cloth' : 'plain'
}

/** Whole numbers of 16 bits as shares from −1 to 1, fine enough for slopes. */
const FULL_SCALE = 32767

/** Growth where none is told of. */
const BARE = -9

function figureGeometry(objects: readonly SeenObject[]): SitterGeometry {
  const parts = objects.flatMap((object, i) => (object.kind === 'part' ? [{ ...object, row: i + 1 }] : []))
  const vertexCount = parts.reduce((sum, { part }) => sum + part.part.headWeight.length, 0)
  const indexCount = parts.reduce((sum, { part }) => sum + part.mesh.indices.length, 0)
  const coats = new Float32Array(vertexCount * 4)
  const numbers = new Float32Array(vertexCount)
  const rest = new Float32Array(vertexCount * 3)
  const grain = new Float32Array(vertexCount * 3).fill(BARE)
  const seams = new Int16Array(vertexCount * 4)
  const indices = new Uint32Array(indexCount)
  const groups: { readonly start: number; readonly count: number; readonly look: FigureLook }[] = []
  let first = 0
  let index = 0
  for (const { part, figure, row } of parts) {
    if (part.name === 'skin' || part.part.seams) rest.set(part.part.mesh.positions, first * 3)
    if (part.part.grain) grain.set(part.part.grain, first * 3)
    part.part.seams?.forEach((share, i) => {
      seams[first * 4 + i] = Math.round(share * FULL_SCALE)
    })
    fillCoats(coats.subarray(first * 4), part, figure)
    numbers.fill(row, first, first + part.part.headWeight.length)
    groups.push({ start: index, count: part.mesh.indices.length, look: lookOf(part) })
    for (const corner of part.mesh.indices) indices[index++] = corner + first
    first += part.part.headWeight.length
  }
  const geometry = new SitterGeometry(vertexCount)
  geometry.take(figureParts(objects))
  geometry.setIndex(new BufferAttribute(indices, 1))
  geometry.setAttribute('coat', new BufferAttribute(coats, 4))
  geometry.setAttribute('object', new BufferAttribute(numbers, 1))
  geometry.setAttribute('grain', new BufferAttribute(grain, 3))
  geometry.setAttribute('rest', new BufferAttribute(rest, 3))
  geometry.setAttribute('seams', new BufferAttribute(seams, 4, true))
  for (const { start, count, look } of groups) geometry.addGroup(start, count, FIGURE_LOOKS.indexOf(look))
  addCorners(
    geometry,
    parts.map(({ part }) => part),
  )
  return geometry
}

export const partsOf = (rig: Rig): readonly PosedPart[] => rig.figures.flatMap(({ posed }) => posed.parts)

/** Places of them all. */
export function placesOf(parts: readonly PosedPart[]): Float32Array {
  const places = new Float32Array(parts.reduce((sum, { mesh }) => sum + mesh.positions.length, 0))
  let at = 0
  for (const { mesh } of parts) {
    places.set(mesh.positions, at)
    at += mesh.positions.length
  }
  return places
}

/** The same sitters in other poses or shapes: what the card poses is told anew. False: not the same, nothing done. */
function moveFigures(geometry: SitterGeometry, before: Rig, after: Rig, objects: readonly SeenObject[]): boolean {
  const [old, parts] = [partsOf(before), partsOf(after)]
  const isSame =
    parts.length === old.length &&
    parts.every(({ rest }, i) => rest.indices === old[i].rest.indices) &&
    after.figures.every((figure, i) => sameCoats(figure, before.figures[i]))
  if (!isSame) return false
  geometry.take(figureParts(objects))
  return true
}

/** Are the sitters, before any pose, who they were? */
function sameShapes(before: Rig, after: Rig): boolean {
  const [old, parts] = [partsOf(before), partsOf(after)]
  return parts.length === old.length && parts.every(({ part }, i) => part.mesh === old[i].part.mesh)
}

/** And do their eyes and lids stand in the head as they did? */
function sameRest(before: Rig, after: Rig): boolean {
  const [old, parts] = [partsOf(before), partsOf(after)]
  return parts.every(({ name, rest }, i) => name !== 'skin' || rest === old[i].rest)
}

/** Skin's own span is 0.2 to 0.6: skinRoughness in src/rig/skin.ts. */
const [LEAST_ROUGH, MOST_ROUGH] = [0.15, 0.8]

function fillCoats(coats: Float32Array, { part, name }: PosedPart, figure: RigFigure): void {
  const base = figure.albedo[name]
  const roughness = part.combed ? HAIR_ROUGHNESS : roughnessOf(figure, name)
  // The camera's pass paints eyes itself, since what a cornea shows depends on where it is seen from.
  const isPainted = !isEye({ name })
  for (let v = 0; v < part.headWeight.length; v++) {
    for (let band = 0; band < 3; band++) coats[v * 4 + band] = base[band] * (isPainted ? part.tint[v * 3 + band] : 1)
    coats[v * 4 + 3] = roughness
    if (part.gloss && roughness > 0)
      coats[v * 4 + 3] = Math.min(MOST_ROUGH, Math.max(LEAST_ROUGH, roughness + part.gloss[v]))
  }
}

function setGeometry(rig: Rig, objects: readonly SeenObject[]): BufferGeometry {
  const vertices = new Vertices()
  // The room is listed first and hidden most: drawn last, its pixels are not shaded in vain.
  for (const [i, object] of [...objects.entries()].reverse())
    if (object.kind === 'side') {
      const { rect, front, back } = object.surface
      const isFront = object.side === 'front'
      const halfU = isFront ? rect.halfU : scale(rect.halfU, -1)
      vertices.quad(rect.centre, halfU, rect.halfV, coatOf(isFront ? front : back!), i + 1)
    } else if (object.kind === 'ball') {
      const { centre, radiusM, material } = rig.balls[object.index]
      const outwards = (p: Vec3) => normalize(subtract(p, centre))
      vertices.mesh(ballMesh(centre, radiusM), coatOf(material), i + 1, 1, outwards)
    }
  return vertices.geometry()
}

/** What of the sources' gear can show. */
function gearGeometry(rig: Rig, objects: readonly SeenObject[]): BufferGeometry {
  const vertices = new Vertices()
  objects.forEach((object, i) => {
    if (object.kind === 'gear' && solidShows(object.solid, rig.view))
      addSolidSide(vertices, object.solid, object.side, i + 1)
  })
  return vertices.geometry()
}
