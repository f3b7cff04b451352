import { add, type Mesh, subtract, type Vec3 } from '../space'
import { eyeRotation, gazeDirection, type PosedGaze, reachedPoint, sightOf } from './gaze'
import { lidsFollowing } from './lids'
import { apply, type Matrix, sameNumbers } from './rotation'
import type { FigureAsset, FigurePart, Landmark, PartName } from './types'

const SIDES = ['Left', 'Right'] as const
type Side = (typeof SIDES)[number]

/** Both eyeballs in the head, turned to what they look at. */
export class Eyes {
  readonly gaze: PosedGaze
  private readonly turned: Readonly<Record<Side, { readonly centre: Vec3; readonly by: Matrix }>>

  /** target: a point of the head's frame, on which both eyes meet; or a direction for both. */
  constructor(asset: FigureAsset, target: { readonly at: Vec3 } | { readonly gaze: PosedGaze }) {
    const reached = 'at' in target ? reachedPoint(target.at) : null
    this.gaze = reached?.gaze ?? (target as { gaze: PosedGaze }).gaze
    const ball = (side: Side) => {
      const centre = asset.landmarks[`eyeCentre${side}`].position
      return { centre, by: eyeRotation(reached ? sightOf(centre, reached.point) : gazeDirection(this.gaze)) }
    }
    this.turned = { Left: ball('Left'), Right: ball('Right') }
  }

  landmark(name: string, place: Landmark): Landmark {
    const side = SIDES.find((one) => name === `pupil${one}`)
    if (!side) return place
    const { centre, by } = this.turned[side]
    const position = add(centre, apply(by, subtract(place.position, centre)))
    return { ...place, position, normal: apply(by, place.normal) }
  }

  /** The part's mesh in the head, eyes turned and lids with them. */
  part({ name, mesh }: FigurePart): FigurePart['mesh'] {
    if (name === 'skin')
      return lidsFollowing(mesh, [this.turned.Left.centre, this.turned.Right.centre], this.gaze.upDeg)
    const side = EYE_PARTS[name]
    if (!side) return mesh
    const { centre, by } = this.turned[side]
    const known = lastEyes.get(mesh)
    if (known && sameNumbers(by, known.by)) return known.turned
    const turned = {
      ...mesh,
      positions: turnedAbout(centre, by, mesh.positions),
      normals: turnedAbout([0, 0, 0], by, mesh.normals),
    }
    lastEyes.set(mesh, { by, turned })
    return turned
  }
}

/** The last gaze of each eyeball, which most poses leave as it was. */
const lastEyes = new WeakMap<Mesh, { readonly by: Matrix; readonly turned: Mesh }>()
const EYE_PARTS: Partial<Record<PartName, Side>> = { eyeLeft: 'Left', eyeRight: 'Right' }

/** Every triple of a list. */
function turnedAbout([cx, cy, cz]: Vec3, m: Matrix, from: Float32Array): Float32Array {
  const to = new Float32Array(from.length)
  for (let i = 0; i < from.length; i += 3) {
    const p = apply(m, [from[i] - cx, from[i + 1] - cy, from[i + 2] - cz])
    to[i] = cx + p[0]
    to[i + 1] = cy + p[1]
    to[i + 2] = cz + p[2]
  }
  return to
}
