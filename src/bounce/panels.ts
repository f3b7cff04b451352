import { ggx } from '../photometry'
import type { Rig, Surface } from '../rig'
import { distance, dot, hash32, length, type RayCaster, sobol, subtract, type Vec3 } from '../space'
import { incidenceFrom, type LitPool } from './direct'
import { type ElementPoint, pointOfElement } from './elements'
import type { Layout } from './layout'
import { type PanelSide, panelSide } from './links'
import type { Coats } from './materials'
import type { VirtualPoint } from './types'

/** Matt panels that lie this near a sitter's eyes or a ball are linked to the receivers; farther ones are even enough for the lists. */
const NEAR_M = 3
/** How far the sitter reaches round the eyes: a side that looks away from all of it is left in the lists. */
const SITTER_M = 0.8
/** Directions to the source that a point of metal keeps: one alone shows as a dot, 16 do not. */
const DIRECTIONS = 16

const surfaceOf = ({ surfaces }: Rig, surfaceId: string) => surfaces.find(({ id }) => id === surfaceId)

/** 1: element of a metal panel, whose first reflection reaches the sitters by points. */
export function thrownElements({ grids, elements }: Layout, rig: Rig, { alpha }: Coats): Uint8Array {
  const thrown = new Uint8Array(elements.length)
  for (const { surfaceId, first, columns, rows } of grids)
    if (surfaceOf(rig, surfaceId)?.kind === 'panel' && alpha[first] > 0) thrown.fill(1, first, first + columns * rows)
  return thrown
}

/** Matt sides of panels near a sitter or a ball, in cells of edge × edge patches. */
export function nearSides({ grids, elements }: Layout, rig: Rig, edge: number): readonly PanelSide[] {
  return grids.flatMap((grid) => {
    const surface = surfaceOf(rig, grid.surfaceId)
    const element = elements[grid.first]
    if (surface?.kind !== 'panel' || element.kind !== 'patch') return []
    const material = grid.side === 'front' ? surface.front : surface.back
    const isNear = material?.kind === 'matt' && reachesAny(surface, element.normal, rig)
    return isNear ? [panelSide(elements, grid, edge)] : []
  })
}

function reachesAny({ rect }: Surface, normal: Vec3, { figures, balls }: Rig): boolean {
  const radius = length(rect.halfU) + length(rect.halfV)
  const reaches = (place: Vec3, size: number) =>
    distance(place, rect.centre) - radius < NEAR_M && dot(normal, subtract(place, rect.centre)) > -size
  return (
    figures.some(({ posed }) => reaches(posed.eyeMidpoint, SITTER_M)) ||
    balls.some(({ centre, radiusM }) => reaches(centre, radiusM))
  )
}

/** A place on a panel and the area that it stands for. */
export interface PanelPlace {
  readonly element: number
  readonly at: ElementPoint
  readonly areaM2: number
}

/** Evenly spaced over the running sum of power·area, so bright patches get more points and none stands for more light. */
export function spreadPlaces(
  { elements }: Layout,
  chosen: readonly number[],
  powerOf: (element: number) => number,
  count: number,
): readonly PanelPlace[] {
  const total = chosen.reduce((sum, element) => sum + powerOf(element) * elements[element].areaM2, 0)
  if (!(total > 0)) return []
  const places: PanelPlace[] = []
  let before = 0
  for (const element of chosen) {
    const power = powerOf(element)
    const after = before + (power * elements[element].areaM2) / total
    while (places.length < count && (places.length + 0.5) / count < after) {
      const i = places.length
      const at = pointOfElement(elements[element], sobol(i, 0, hash32(3, 0)), sobol(i, 1, hash32(3, 1)))
      places.push({ element, at, areaM2: total / (count * power) })
    }
    before = after
  }
  return places
}

/** A point of metal with the directions from which the source lights it. Strengths in white light; F0 is in them. */
export interface MetalPoint extends PanelPlace {
  readonly alpha: number
  readonly glossy: readonly { readonly incident: Vec3; readonly strength: Vec3 }[]
}

export function metalPoint(
  place: PanelPlace,
  number: number,
  { alpha, reflectance }: Coats,
  pools: readonly LitPool[],
  caster: RayCaster,
  ownGear: ReadonlySet<number> | undefined,
): MetalPoint {
  const each = 2 ** Math.floor(Math.log2(DIRECTIONS / pools.length))
  const f0 = reflectance.subarray(3 * place.element, 3 * place.element + 3)
  const glossy = pools.flatMap((pool) =>
    Array.from({ length: each }, (_, ray) => {
      const met = incidenceFrom(pool, hash32(number, 5), ray, each, place.at, caster, ownGear)
      if (!met) return null
      const k = met.irradiance / each
      return { incident: met.towards, strength: [f0[0] * k, f0[1] * k, f0[2] * k] as Vec3 }
    }).filter((entry) => entry !== null),
  )
  return { ...place, alpha: alpha[place.element], glossy }
}

/** Irradiance that a metal point throws on a receiver, added to three bands of sum at 3·to. The area as in a disc's form factor. */
export function addGlossy(
  { at, areaM2, alpha, glossy }: MetalPoint,
  { point, normal }: ElementPoint,
  caster: RayCaster,
  sum: Float32Array,
  to: number,
): void {
  if (glossy.length === 0) return
  const way = subtract(point, at.point)
  const squared = dot(way, way)
  const size = Math.sqrt(squared)
  const away: Vec3 = [way[0] / size, way[1] / size, way[2] / size]
  const cosSent = dot(at.normal, away)
  const cosSeen = -dot(normal, away)
  if (cosSent <= 0 || cosSeen <= 0 || !caster.visible(point, at.point)) return
  const geometry = (cosSent * cosSeen * areaM2) / (squared + areaM2 / Math.PI)
  for (const { incident, strength } of glossy) {
    const k = geometry * ggx(at.normal, incident, away, alpha)
    for (let band = 0; band < 3; band++) sum[3 * to + band] += k * strength[band]
  }
}

/** Contract's form of a point: radiosity three bands at its element; colour: of the source, for the glossy part. */
export function virtualPoint(
  { at, areaM2, element, glossy, alpha }: MetalPoint,
  surfaceId: string,
  radiosity: Float32Array,
  colour: Vec3,
): VirtualPoint {
  const k = 3 * element
  return {
    surfaceId,
    point: at.point,
    normal: at.normal,
    areaM2,
    diffuse: [radiosity[k] / Math.PI, radiosity[k + 1] / Math.PI, radiosity[k + 2] / Math.PI],
    glossy: glossy.map(({ incident, strength: [r, g, b] }) => ({
      incident,
      strength: [r * colour[0], g * colour[1], b * colour[2]],
    })),
    alpha,
  }
}
