import { type DataTexture, WebGLRenderTarget } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import { type Mirror, mirrorOf, type Rig, type RigSource } from '../rig'
import { distance, sobol, type Vec3 } from '../space'
import { type BounceTextures, bounceTextures } from './bounce-textures'
import type { Look } from './convergence'
import { FACE_MAP, faceExtent, faceMap } from './face-map'
import { FLOAT_TARGET } from './g-buffer'
import { intensityTexture } from './intensities'
import { BATCH, EMITTER } from './layouts'
import { occludersFor, packEmitters, packOccluders } from './pack'
import { type Cloud, cornersOf, litCloud, mayBlock, pointCloud, sittersCloud } from './reach'
import type { Sphere } from './shadow-frustum'
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
  look: Look | null = null
  emitters: Records
  occluders: Records
  occluderCount = 0
  /** What stands between the panels' virtual points and the sitters: the source's own gear too. */
  pointOccluders: Records
  pointOccluderCount = 0
  /** Over it the source's light comes as well. */
  mirror: Mirror | null = null
  /** What may stand in that way: the source's own gear last. */
  mirrorOccluders: Records
  mirrorOccluderCount = 0
  otherOccluders = 0
  /** How bright the faces look from the sitters' eyes; null until first asked for, or where there are no eyes. */
  faces: Table | null = null
  /** Of a measured lamp. */
  intensities: DataTexture | null
  private isFaceSeen: readonly boolean[] = []
  /** What the maps were drawn of. */
  private facesOf: { readonly emitters: RigSource['emitters']; readonly eye: Vec3 | null } | null = null
  bounce: BounceTextures | null = null
  points: readonly VirtualPoint[] = []
  /** Turns a bounce in the source's own colour into one in white. */
  whiteGain: Vec3 = [1, 1, 1]

  constructor(
    width: number,
    height: number,
    public source: RigSource,
    /** In which it started. */
    public rig: Rig,
    public seen: Cloud,
    /** Ball around the sitters: light that cannot reach it needs no shadow map. */
    public sitters: Sphere | null,
  ) {
    this.target = new WebGLRenderTarget(width, height, FLOAT_TARGET)
    this.emitters = packEmitters(source)
    this.intensities = intensityTexture(source)
    this.occluders = this.pointOccluders = this.mirrorOccluders = packOccluders([])
    this.setOccluders(rig)
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
    this.look = null
  }

  /** New geometry of the source itself or of what may stand in its light. */
  restart(source: RigSource, rig: Rig, seen: Cloud, sitters: Sphere | null): void {
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
    this.emitters = packEmitters(source)
    this.seen = seen
    this.sitters = sitters
    this.setOccluders(rig)
  }

  /** Nothing that it has is wrong; at rest it is as good as if it had started now. */
  goOn(source: RigSource, rig: Rig, isMoving: boolean): void {
    this.source = source
    if (isMoving || !this.isGearMoved) return
    this.isGearMoved = false
    this.rig = rig
  }

  private setOccluders(rig: Rig): void {
    const lit = litCloud(this.source)
    const occluders = occludersFor(rig, this.source).filter((occluder) => mayBlock(occluder, lit, this.seen))
    this.occluders = packOccluders(occluders)
    this.occluderCount = occluders.length
    this.setPointOccluders(rig)
    this.setMirror(rig, lit)
  }

  private setMirror(rig: Rig, lit: Cloud): void {
    this.mirror = mirrorOf(rig)
    if (!this.mirror) return
    const { surfaceId, rect } = this.mirror
    const mirror = pointCloud(cornersOf(rect))
    const others = occludersFor({ ...rig, surfaces: rig.surfaces.filter(({ id }) => id !== surfaceId) }, this.source)
    const between = others.filter((one) => mayBlock(one, lit, mirror) || mayBlock(one, mirror, this.seen))
    const own = this.source.gear.filter((one) => mayBlock(one, mirror, this.seen))
    this.mirrorOccluders = packOccluders([...between, ...own])
    this.otherOccluders = between.length
    this.mirrorOccluderCount = between.length + own.length
  }

  private setPointOccluders(rig: Rig): void {
    const lit = pointCloud(this.points.map(({ point }) => point))
    const all = this.points.length > 0 ? occludersFor(rig, null) : []
    const sitters = sittersCloud(rig)
    const occluders = all.filter((occluder) => mayBlock(occluder, lit, sitters))
    this.pointOccluders = packOccluders(occluders)
    this.pointOccluderCount = occluders.length
  }

  /**
   * One map an emitter, as seen from the midpoint of the nearest pair of eyes. The first batch after a move makes do
   * with the last maps: where a face lies and how large it looks comes from its frame.
   */
  prepareFaces(eyes: readonly Vec3[]): void {
    const eye = nearest(eyes, this.source.frame.origin)
    const isStale = this.facesOf?.emitters !== this.source.emitters || this.facesOf.eye?.join() !== eye?.join()
    if (!this.faces || (isStale && this.batches > 0)) this.drawFaces(eye)
    this.source.emitters.forEach(({ emission }, e) => {
      const [halfX, halfY] = faceExtent(emission.surface)
      this.emitters.set(e, EMITTER.face, [halfX, halfY, this.isFaceSeen[e] ? 1 : 0])
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

  setBounce(light: IndirectLight | null, receivers: Receivers, rig: Rig): void {
    this.disposeBounce()
    const { colour } = this.source
    this.whiteGain = [inverse(colour[0]), inverse(colour[1]), inverse(colour[2])]
    this.bounce = light && bounceTextures(light, receivers, rig, this.whiteGain)
    this.points = light?.points ?? []
    this.setPointOccluders(rig)
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
    this.intensities?.dispose()
    this.dropFaces()
    this.disposeBounce()
  }
}

/**
 * The points that a batch draws, at most `most`: evenly spaced along the panels' rows, all points once in a round. Offsets
 * follow the van der Corput order, so that any two, four or eight batches are evenly spaced too.
 */
export function pointsInTurn<T>(points: readonly T[], batch: number, most: number = BATCH): readonly T[] {
  const turns = 2 ** Math.ceil(Math.log2(Math.max(1, points.length / most)))
  const turn = Math.floor(sobol(batch % turns, 0) * turns)
  return points.filter((_, i) => i % turns === turn)
}

/** A band that the source does not emit has no bounce either: its gain does not matter. */
const inverse = (value: number): number => (value > 0 ? 1 / value : 0)

const nearest = (points: readonly Vec3[], to: Vec3): Vec3 | null =>
  points.length === 0 ? null : points.reduce((best, point) => (distance(point, to) < distance(best, to) ? point : best))

const sameEmissions = (a: RigSource, b: RigSource): boolean =>
  a.emitters.length === b.emitters.length && a.emitters.every(({ emission }, e) => emission === b.emitters[e].emission)
