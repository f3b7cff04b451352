import { finishOf, type Material, type Rig, type RigFigure } from '../rig'
import type { Mesh, Vec3 } from '../space'
import { type Element, type Patch, reflectanceOf } from './elements'
import type { Layout } from './layout'
import type { BodyOwner, BounceScene } from './scene'

/** Colours of the elements, apart from their geometry: new paint needs no new lists. */
export interface Coats {
  /** Three bands an element. Of a metal: F0, as which the later bounces count it. */
  readonly reflectance: Float32Array
  /** α = roughness² where the element is metal, else 0. */
  readonly alpha: Float32Array
}

export function coatsOf({ rig, owners }: BounceScene, { elements, grids, patchCount }: Layout): Coats {
  const reflectance = new Float32Array(3 * elements.length)
  const alpha = new Float32Array(elements.length)
  const paint = (element: number, material: Material) => {
    reflectance.set(reflectanceOf(material), 3 * element)
    alpha[element] = material.kind === 'metal' ? material.roughness ** 2 : 0
  }
  for (const { surfaceId, side, first, columns, rows } of grids) {
    const surface = rig.surfaces.find(({ id }) => id === surfaceId)
    const material = side === 'front' ? surface?.front : surface?.back
    if (!material)
      throw new Error(`bounce.coatsOf: no ${side} on surface ${surfaceId}; the lists belong to another set`)
    for (let i = first; i < first + columns * rows; i++) paint(i, material)
  }
  for (let i = patchCount; i < elements.length; i++) {
    const element = elements[i]
    paint(i, element.kind === 'cluster' ? clusterMaterial(owners[element.body], element) : frontOf(rig, element))
  }
  return { reflectance, alpha }
}

type Cluster = Extract<Element, { kind: 'cluster' }>

/** The part of a cut patch behind a sheet; only the room's surfaces are cut, and they have fronts alone. */
const frontOf = (rig: Rig, { surfaceId }: Patch): Material => rig.surfaces.find(({ id }) => id === surfaceId)!.front

/** Metal of balls and gear counts as matt: of its gloss only later bounces are met. */
function clusterMaterial(owner: BodyOwner, cluster: Cluster): Material {
  switch (owner.kind) {
    case 'part':
      return { kind: 'matt', albedo: meanTone(owner.figure, owner.part, owner.mesh, cluster) }
    case 'ball':
      return { kind: 'matt', albedo: reflectanceOf(owner.ball.material) }
    case 'gear':
      return { kind: 'matt', albedo: reflectanceOf(finishOf(owner.solid, cluster.side === 1 ? 'front' : 'back')) }
    case 'surface':
      throw new Error('bounce.clusterMaterial: a surface has patches, no clusters')
  }
}

type PosedPart = RigFigure['posed']['parts'][number]

/** Base reflectance times the paint of the corners, weighted by area. */
function meanTone(figure: RigFigure, { name, part }: PosedPart, mesh: Mesh, { triangles, shares }: Cluster): Vec3 {
  const base = figure.albedo[name]
  const mean: [number, number, number] = [0, 0, 0]
  for (const [i, triangle] of triangles.entries()) {
    const share = shares[i] - (i > 0 ? shares[i - 1] : 0)
    for (let corner = 0; corner < 3; corner++) {
      const vertex = mesh.indices[3 * triangle + corner]
      for (let band = 0; band < 3; band++) mean[band] += (share / 3) * base[band] * part.tint[3 * vertex + band]
    }
  }
  return mean
}
