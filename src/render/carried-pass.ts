import {
  DoubleSide,
  HalfFloatType,
  type IUniform,
  type Matrix4,
  Mesh,
  type Texture,
  type WebGLRenderer,
  WebGLRenderTarget,
} from 'three'
import type { Vec3 } from '../space'
import type { Block } from './block'
import { FLOAT_TARGET } from './g-buffer'
import type { LightLayer } from './light-layer'
import type { PosedPart } from './objects'
import type { PanelSum } from './panel-sum'
import { type Place, Places } from './places'
import { FullScreenPass, Pass, program } from './programs'
import { FIGURE_LOOKS, type SceneGeometry } from './scene'
import fragment from './shaders/carried.frag.glsl?raw'
import vertex from './shaders/carried.vert.glsl?raw'
import evenness from './shaders/evenness.frag.glsl?raw'

/** How many points the block holds: the batch's own, then those that even them out. */
export interface Counts {
  readonly few: number
  readonly many: number
  /** Do the pixels count the source's own dish and body? */
  readonly isOwnCounted: boolean
  /** Of the evenness, from 0 to 1. */
  readonly trust: number
}

/** The camera's look that the G-buffer has. */
export interface Look {
  readonly worldToClip: Matrix4
  readonly eye: Vec3
  /** Of coverage. */
  readonly lookShift: number
  readonly objects: Texture
}

type Carriers = Pick<SceneGeometry, 'figures' | 'lashes' | 'hairs' | 'set'>

/** Draws what vertices carry for one batch of a source, from the camera and with the G-buffer's own jitter. */
export class CarriedPass {
  private readonly target: WebGLRenderTarget
  private readonly evenTarget = new WebGLRenderTarget(1, 1, FLOAT_TARGET)
  /** Of all sources but measured lamps; of these, made when there is one. */
  private readonly even: FullScreenPass
  private evenOfMeasured: FullScreenPass | null = null
  private readonly evenUniforms = uniforms(EVEN_NAMES)
  private readonly uniforms = {
    figures: uniforms(NAMES),
    lashes: uniforms(NAMES),
    hairs: uniforms(NAMES),
    set: uniforms(NAMES),
  }
  private readonly materials
  private next: { readonly geometry: Carriers; readonly parts: readonly PosedPart[] } | null = null
  private places: Places | null = null
  private pass: Pass | null = null

  constructor(
    width: number,
    height: number,
    private readonly blocks: readonly Block[],
  ) {
    this.target = new WebGLRenderTarget(width, height, { ...FLOAT_TARGET, type: HalfFloatType, depthBuffer: true })
    this.even = this.evenPass({ GATES: 1 })
    const { figures, lashes, hairs, set } = this.uniforms
    const strand = (uniforms: Record<string, IUniform>) =>
      program({ vertex, fragment, uniforms, defines: { FIGURE: 1, STRAND: 1 }, state: { side: DoubleSide } })
    this.materials = {
      figures: program({ vertex, fragment, uniforms: figures, defines: { FIGURE: 1 } }),
      hair: program({ vertex, fragment, uniforms: figures, defines: { FIGURE: 1, HAIR: 1 } }),
      lashes: strand(lashes),
      hairs: strand(hairs),
      set: program({ vertex, fragment, uniforms: set }),
    }
  }

  private evenPass(defines: Record<string, number>): FullScreenPass {
    return new FullScreenPass({ fragment: evenness, uniforms: this.evenUniforms, blocks: this.blocks, defines })
  }

  private evenOf({ intensities }: LightLayer): FullScreenPass {
    if (!intensities) return this.even
    this.evenOfMeasured ??= this.evenPass({ GATES: 1, INTENSITIES: 1 })
    return this.evenOfMeasured
  }

  /** Taken up when it is first asked for: the card looks meanwhile. */
  setScene(geometry: Carriers, parts: readonly PosedPart[]): void {
    this.next = { geometry, parts }
  }

  private takeUp(): void {
    if (!this.next) return
    const { geometry, parts } = this.next
    this.next = null
    if (!this.places?.move(parts, geometry.set)) {
      this.places?.dispose()
      this.places = new Places(parts, geometry.set)
    }
    const { figures, all } = this.places.count
    this.evenTarget.setSize(1024, Math.max(1, Math.ceil(all / 1024)))
    this.uniforms.set.firstPlace.value = figures
    const isFilled = ({ geometry }: Mesh) => (geometry.index?.count ?? 0) > 0
    const { figures: figure, hair } = this.materials
    this.pass = new Pass(
      [
        new Mesh(
          geometry.figures,
          FIGURE_LOOKS.map((look) => (look === 'hair' ? hair : figure)),
        ),
        ...(['lashes', 'hairs', 'set'] as const).map((name) => new Mesh(geometry[name], this.materials[name])),
      ].filter(isFilled),
    )
  }

  /** Some places of the sitters. */
  get sitters(): readonly Place[] {
    this.takeUp()
    return this.places?.sitters ?? []
  }

  prepare(renderer: WebGLRenderer, layer: LightLayer): boolean {
    this.takeUp()
    const isNew = this.evenOf(layer).prepare(renderer, this.evenTarget)
    return (this.pass?.prepare(renderer, this.target) ?? false) || isNew
  }

  draw(
    renderer: WebGLRenderer,
    { worldToClip, eye, lookShift, objects }: Look,
    layer: LightLayer,
    counts: Counts,
  ): Texture {
    this.takeUp()
    if (!this.places) throw new Error('CarriedPass.draw: no scene yet; call setScene first')
    const { positions, normals, count } = this.places
    const u = this.evenUniforms
    u.placePositions.value = positions
    u.placeNormals.value = normals
    u.worldToClip.value = worldToClip
    u.eye.value = eye
    u.figurePlaces.value = count.figures
    u.fewCount.value = counts.few
    u.manyCount.value = counts.many
    u.isOwnCounted.value = counts.isOwnCounted
    u.trust.value = counts.trust
    u.intensities.value = layer.intensities
    this.evenOf(layer).draw(renderer, this.evenTarget)
    return this.carry(renderer, { worldToClip, eye, lookShift, objects }, (one) => {
      one.isOfPanels.value = false
      one.ofPlaces.value = this.evenTarget.texture
      one.hasBounce.value = layer.bounce !== null
      one.vertexBounce.value = layer.bounce?.vertices ?? null
    })
  }

  /** In place of what was drawn last: light of metal panels at the sitters' places. */
  drawPanels(renderer: WebGLRenderer, look: Look, sum: PanelSum, layer: LightLayer): Texture {
    this.takeUp()
    if (!this.places) throw new Error('CarriedPass.drawPanels: no scene yet; call setScene first')
    const { positions, normals, count } = this.places
    const light = sum.of(renderer, layer, { positions, normals, figures: count.figures })
    return this.carry(renderer, look, (one) => {
      one.isOfPanels.value = true
      one.ofPlaces.value = light
    })
  }

  private carry(
    renderer: WebGLRenderer,
    { worldToClip, eye, lookShift, objects }: Look,
    bind: (uniforms: Record<(typeof NAMES)[number], IUniform>) => void,
  ): Texture {
    for (const one of Object.values(this.uniforms)) {
      one.worldToClip.value = worldToClip
      one.eye.value = eye
      one.widthPx.value = this.target.width
      one.lookShift.value = lookShift
      one.objects.value = objects
      bind(one)
    }
    this.pass?.draw(renderer, this.target, true)
    return this.target.texture
  }

  setSize(width: number, height: number): void {
    this.target.setSize(width, height)
  }

  dispose(): void {
    for (const owner of [this.target, this.evenTarget, this.even, ...Object.values(this.materials)]) owner.dispose()
    this.evenOfMeasured?.dispose()
    this.places?.dispose()
  }
}

const NAMES = [
  'worldToClip',
  'eye',
  'widthPx',
  'lookShift',
  'objects',
  'vertexBounce',
  'ofPlaces',
  'isOfPanels',
  'hasBounce',
  'firstPlace',
] as const
const EVEN_NAMES = [
  'placePositions',
  'placeNormals',
  'worldToClip',
  'eye',
  'figurePlaces',
  'fewCount',
  'manyCount',
  'isOwnCounted',
  'trust',
  'intensities',
] as const

const uniforms = <Name extends string>(names: readonly Name[]) =>
  Object.fromEntries(names.map((name) => [name, { value: null }])) as Record<Name, IUniform>
