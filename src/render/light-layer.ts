import { type DataTexture, WebGLRenderTarget } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig, RigSource } from '../rig'
import { distance, type Vec3 } from '../space'
import { type BounceTextures, bounceTextures } from './bounce-textures'
import type { Look } from './convergence'
import { type Drawn, membersByEmitter, pointsInTurns, type SharedLight } from './ensemble'
import { FACE_MAP, faceExtent, faceMap } from './face-map'
import { FLOAT_TARGET } from './g-buffer'
import { intensityTexture } from './intensities'
import { BATCH, EMITTER } from './layouts'
import { packEmitters } from './pack'
import { pointsInTurn } from './points-in-turn'
import type { Cloud } from './reach'
import type { Sphere } from './shadow-frustum'
import { Standing } from './standing'
import { type Records, Table } from './table'

type VirtualPoint = IndirectLight['points'][number]

/**
 * The light of one source over a pixel grid: sums of samples, per 1 cd·s of axial intensity and in white light, so that
 * power, on/off and colour are weights of the recombination and never restart it.
 */
export class LightLayer {
  target: WebGLRenderTarget
  batches = 0
  /** Others' gear was moved since it started. */
  isGearMoved = false
  /** Of its first batch, which stands for BATCH samples all the same; and of the panels' points in it. */
  firstPoints: number = BATCH
  firstPanelPoints: number = BATCH
  /** As it was last looked at; null: not since it started. */
  lastLook: Look | null = null
  emitters: Records
  standing!: Standing
  /** What its first batch needs is worked out only then: under a moving hand it may never be drawn. */
  private isReady = false
  private arrived: { readonly light: IndirectLight; readonly receivers: Receivers } | null = null
  /** Where what is lit as a sitter lies; null: the sitters. */
  places: Cloud | null = null
  /** How bright the faces look from the sitters' eyes; null until first asked for, or where there are no eyes. */
  faces: Table | null = null
  /** Of a measured lamp. */
  intensities: DataTexture | null
  private isFaceSeen: readonly boolean[] = []
  /** What the maps were drawn of. */
  private facesOf: { readonly emitters: RigSource['emitters']; readonly eye: Vec3 | null } | null = null
  bounce: BounceTextures | null = null
  /** What all of its panels' points bring at the sitters' places; null: not yet asked for. */
  panelSum: WebGLRenderTarget | null = null
  points: readonly VirtualPoint[] = []
  /** Of an ensemble: those of each source. */
  private pointGroups: SharedLight['groups'] | null = null
  /** Turns a bounce in the source's own colour into one in white. */
  whiteGain: Vec3 = [1, 1, 1]

  constructor(
    width: number,
    height: number,
    public source: RigSource,
    /** In which it started. */
    public rig: Rig,
    /** What shows, asked when the first batch is drawn. */
    private look: () => Cloud,
    /** Ball around the sitters: light that cannot reach it needs no shadow map. */
    public sitters: Sphere | null,
  ) {
    this.target = new WebGLRenderTarget(width, height, FLOAT_TARGET)
    this.emitters = packEmitters(source)
    this.intensities = intensityTexture(source)
  }

  get seen(): Cloud {
    return this.look()
  }

  get samples(): number {
    return this.batches * BATCH
  }

  /** It started with few points. */
  get isThin(): boolean {
    return this.firstPoints < BATCH || (this.firstPanelPoints < BATCH && this.points.length > this.firstPanelPoints)
  }

  /** It may only do for a moving hand. */
  get isStale(): boolean {
    return this.isGearMoved || this.isThin
  }

  startAgain(): void {
    this.batches = 0
    this.lastLook = null
    this.dropPanelSum()
  }

  /** New geometry of the source itself or of what may stand in its light. */
  restart(source: RigSource, rig: Rig, look: () => Cloud, sitters: Sphere | null): void {
    if (!sameEmissions(this.source, source)) {
      this.dropFaces()
      this.intensities?.dispose()
      this.intensities = intensityTexture(source)
    }
    this.source = source
    this.rig = rig
    this.isGearMoved = false
    this.firstPoints = this.firstPanelPoints = BATCH
    this.startAgain()
    this.look = look
    this.sitters = sitters
    this.isReady = false
  }

  /** To be asked before anything of it is drawn. */
  ready(): void {
    if (this.isReady) return
    this.isReady = true
    this.emitters = packEmitters(this.source)
    this.standing = new Standing(this)
    if (!this.arrived || this.bounce) return
    const { light, receivers } = this.arrived
    this.bounce = bounceTextures(light, receivers, this.rig, this.whiteGain)
  }

  /** Nothing that it has is wrong; at rest it is as good as if it had started now. */
  goOn(source: RigSource, rig: Rig, isMoving: boolean): void {
    this.source = source
    if (isMoving || !this.isGearMoved) return
    this.isGearMoved = false
    this.rig = rig
  }

  /**
   * One map an emitter, as seen from the midpoint of the nearest pair of eyes. The first batch after a move makes do
   * with the last maps: where a face lies and how large it looks comes from its frame.
   */
  prepareFaces(eyes: readonly Vec3[]): void {
    const eye = nearest(eyes, this.source.frame.origin)
    const isStale = this.facesOf?.emitters !== this.source.emitters || this.facesOf.eye?.join() !== eye?.join()
    if (!this.faces || (isStale && this.batches > 0)) this.drawFaces(eye)
    const members = membersByEmitter(this.source)
    this.source.emitters.forEach(({ emission }, e) => {
      const [halfX, halfY] = faceExtent(emission.surface)
      this.emitters.set(e, EMITTER.face, [halfX, halfY, this.isFaceSeen[e] ? 1 : 0], members[e].factor)
    })
  }

  private drawFaces(eye: Vec3 | null): void {
    const { emitters } = this.source
    this.dropFaces()
    this.facesOf = { emitters, eye }
    if (!eye) return
    const maps = emitters.map((emitter) => faceMap(emitter, eye))
    this.faces = new Table(FACE_MAP, FACE_MAP * Math.max(1, emitters.length))
    maps.forEach((map, e) => {
      map?.forEach((value, i) => {
        this.faces!.set(e * FACE_MAP + Math.floor(i / FACE_MAP), i % FACE_MAP, [value, value, value])
      })
    })
    this.isFaceSeen = maps.map((map) => map !== null)
  }

  setSize(width: number, height: number): void {
    this.target.setSize(width, height)
    this.startAgain()
  }

  /** Other light that bounced; with it the layer starts again, in the rig as it is now. */
  setBounce(light: IndirectLight | SharedLight | null, receivers: Receivers, rig: Rig): void {
    this.disposeBounce()
    const { colour } = this.source
    this.whiteGain = [inverse(colour[0]), inverse(colour[1]), inverse(colour[2])]
    this.arrived = light && { light, receivers }
    this.rig = rig
    this.isGearMoved = false
    this.startAgain()
    this.points = light?.points ?? []
    this.pointGroups = light && 'groups' in light ? light.groups : null
    this.isReady = false
  }

  /** The metal panels' virtual points of the next batch: up to so many, weighed so that they stand for all. */
  nextPoints(atMost: number = BATCH): readonly Drawn[] {
    const { points, batches } = this
    const most = Math.min(atMost, batches === 0 ? this.firstPanelPoints : BATCH)
    if (this.pointGroups) return pointsInTurns(this.pointGroups, batches, most)
    const some = pointsInTurn(points, batches, most)
    return some.map((point) => ({ point, weight: points.length / some.length }))
  }

  private dropPanelSum(): void {
    this.panelSum?.dispose()
    this.panelSum = null
  }

  private dropFaces(): void {
    this.faces?.dispose()
    this.faces = null
  }

  private disposeBounce(): void {
    this.bounce?.vertices.dispose()
    this.bounce?.patches.dispose()
    this.bounce = null
  }

  dispose(): void {
    this.target.dispose()
    this.dropPanelSum()
    this.intensities?.dispose()
    this.dropFaces()
    this.disposeBounce()
  }
}

/** A band that the source does not emit has no bounce either: its gain does not matter. */
const inverse = (value: number): number => (value > 0 ? 1 / value : 0)

const nearest = (points: readonly Vec3[], to: Vec3): Vec3 | null =>
  points.length === 0 ? null : points.reduce((best, point) => (distance(point, to) < distance(best, to) ? point : best))

const sameEmissions = (a: RigSource, b: RigSource): boolean =>
  a.emitters.length === b.emitters.length && a.emitters.every(({ emission }, e) => emission === b.emitters[e].emission)
