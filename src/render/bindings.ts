import { type IUniform, Vector2, Vector3, Vector4 } from 'three'
import { isEnsemble } from './ensemble'
import { MAX_SOURCES } from './layouts'
import type { LightLayer } from './light-layer'
import { ballOf, type WorldSample } from './samples'
import type { Scenery } from './scenery'
import type { ShadowAtlas } from './shadow-atlas'
import { UNIFORMS } from './uniforms'

export type Uniforms = Record<string, IUniform>

export function shadingUniforms(): Uniforms {
  const uniforms: Uniforms = Object.fromEntries(UNIFORMS.map((name) => [name, { value: null }]))
  uniforms.eye.value = new Vector3()
  uniforms.balls.value = Array.from({ length: MAX_SOURCES }, () => new Vector4())
  uniforms.standing.value = Array.from({ length: MAX_SOURCES }, () => new Vector2())
  uniforms.tints.value = Array.from({ length: MAX_SOURCES }, () => new Vector3())
  return uniforms
}

/** What a layer's batch is shaded by. */
export function bindLayer(
  u: Uniforms,
  layer: LightLayer,
  { g, objects, sourceIndex, liftM }: Scenery,
  atlas: ShadowAtlas,
): void {
  u.gPosition.value = g.position
  u.gNormals.value = g.normals
  u.gCoat.value = g.coat
  u.eye.value.set(...g.eye)
  u.objects.value = objects
  u.emitterCount.value = layer.faces ? layer.source.emitters.length : 0
  u.faceMaps.value = layer.faces?.texture ?? null
  u.intensities.value = layer.intensities
  u.occluderCount.value = layer.standing.direct.count
  u.shadowMap.value = atlas.target.depthTexture
  u.tileSize.value = atlas.tileSize
  u.source.value = sourceIndex
  u.liftM.value = liftM
  u.isFirst.value = layer.batches === 0
  u.hasBounce.value = layer.bounce !== null
  u.patchBounce.value = layer.bounce?.patches ?? null
}

/** Where the points of the batch lie: of an ensemble's each member by itself. */
export function bindPoints(u: Uniforms, { source, standing }: LightLayer, mapped: readonly WorldSample[]): void {
  u.sampleCount.value = mapped.length
  u.ball.value = ballOf(mapped.map(reachOf))
  u.beforeSitters.value = mapped.reduce(
    (bits, one) => (standing.mayHide(one.point, one.patchM, one.member.index) ? bits | (1 << one.member.index) : bits),
    0,
  )
  if (!isEnsemble(source)) return
  for (const ball of u.balls.value) ball.w = -1
  for (const { index, first, count } of standing.rows) u.standing.value[index].set(first, first + count)
  for (const tint of u.tints.value) tint.set(0, 0, 0)
  for (const { index, factor, rgb } of source.members) {
    const own = mapped.filter(({ member }) => member.index === index)
    if (own.length > 0) u.balls.value[index].copy(ballOf(own.map(reachOf)))
    u.tints.value[index].set(factor * rgb[0], factor * rgb[1], factor * rgb[2])
  }
}

const reachOf = ({ point, patchM }: WorldSample) => ({ point, reachM: patchM })
