/** Names the pattern by which places of the face see the source. All limits: common practice put into areas, no source. */
import type { MeterScene } from '../meter'
import type { RigFigure } from '../rig'
import { addScaled, dot, subtract } from '../space'
import {
  type CellLight,
  cellLights,
  type FaceGrid,
  type FaceMap,
  faceMap,
  type Shining,
  seenFrom,
  spreadFrom,
} from './face-map'

export type Pattern = 'flat' | 'butterfly' | 'loop' | 'Rembrandt' | 'split' | 'rim'
/** One name, or the two that it lies between. */
export type Verdict = readonly [Pattern] | readonly [Pattern, Pattern]

type Where = (xMm: number, yMm: number) => boolean

const GRID: FaceGrid = { stepMm: 3, halfWidthMm: 60, topMm: -12, bottomMm: -80, noNose: true }
/** Under the nose, where a small shadow decides, the grid is finer. */
const LIP: FaceGrid = { stepMm: 1.5, halfWidthMm: 30, topMm: -45, bottomMm: -63, noNose: true }
const onLip: Where = (x, y) => Math.abs(x) <= LIP.halfWidthMm && y <= LIP.topMm

export interface PatternMap {
  readonly face: FaceMap
  readonly lip: FaceMap
}

/** By the posed mesh, which stays the same record until the head moves: only its own skin and eyes are asked. */
const MAPS = new WeakMap<RigFigure['posed'], PatternMap>()

export function patternMap(scene: MeterScene, figure: RigFigure): PatternMap {
  const known = MAPS.get(figure.posed)
  if (known) return known
  const made = { face: faceMap(scene, figure, GRID), lip: faceMap(scene, figure, LIP) }
  MAPS.set(figure.posed, made)
  return made
}

/** A cheek between eye and nose wing, millimetres from the midline and under the eye line. */
const CHEEK = { from: 18, to: 46, top: -12, bottom: -44 }
const MOUTH_MM = -64
const NOSE_BASE_MM = -49.5
const NOSE_WING_MM = -46
const AVERAGE_NOSE_M = 0.0148

/** Less lit skin than this on the far cheek is none: a grain of the grid, not a triangle. */
const NO_LIGHT = 0.05
/** From here on the light of the far cheek is a triangle, not a spark on its way out. */
const A_TRIANGLE = 0.3
/** The triangle is no broader than the eye with its lids and no longer than the nose. */
const TRIANGLE_MM = { broad: 36, long: 54 }
/** Of the near cheek: more is half a face, less is a rim. */
const HALF_FACE = 0.55
const A_RIM = 1 / 3
/** The nose's shadow counts from this area on, above the mouth; of a nose half as deep from half of it. */
const LEAST_SHADOW_MM2 = 40
/** It falls, and doesn't lie level, where its middle is so far under the tip; beside the mouth, where this share is under the wings. */
const FALLS_MM = 10
const FALLS = 0.33
/** The tip's shadow falls down, not aside, within this share of the nose's depth from the midline: 22° round. */
const CENTRED = 0.4
/** As much of the far half as of the near one is lit where there is no side shadow. */
const EVEN = 0.9

/** What the face sees of a source, as the shares and millimetres that the names go by. */
export interface FaceLight {
  readonly nearCheek: number
  readonly farCheek: number
  readonly tip: boolean
  /** Lit area of the far half against that of the near one. */
  readonly evenness: number
  /** Lit skin of the far cheek that hangs together, millimetres; joined: with the near half. */
  readonly patch: { readonly joined: boolean; readonly broadMm: number; readonly longMm: number }
  /** Of the nose on the cheek, of an average nose; its middle under the tip, and the share of it under the wings. */
  readonly shadow: { readonly areaMm2: number; readonly underTipMm: number; readonly underWings: number }
  /** How far aside the light stands for each length before the face: tangent of the azimuth from the nose. */
  readonly aside: number
}

export function faceLight(scene: MeterScene, figure: RigFigure, map: PatternMap, source: Shining): FaceLight {
  const { posed } = figure
  const towards = subtract(source.centre, posed.eyeMidpoint)
  const farSign = dot(towards, map.face.left) > 0 ? -1 : 1
  const lightOn = (one: FaceMap) => new Face(one, cellLights(one, scene, source), farSign)
  const face = lightOn(map.face)
  const { noseTip, subnasale } = posed.landmarks
  const depth = dot(subtract(noseTip.position, subnasale.position), posed.noseDirection) / AVERAGE_NOSE_M
  const below = ({ position }: typeof noseTip) => dot(subtract(posed.eyeMidpoint, position), posed.headUp)
  const tipMm = (NOSE_BASE_MM * below(noseTip)) / below(subnasale)
  const tip = { point: addScaled(noseTip.position, noseTip.normal, 5e-4), normal: noseTip.normal }
  const before = dot(towards, posed.noseDirection)
  return {
    nearCheek: face.share((x, y) => inCheek(-x, y)),
    farCheek: face.share(inCheek),
    tip: seenFrom(tip, scene.caster, [source.centre], source.ignore).seen > 0.5,
    evenness:
      face.share((x) => x > 0) /
      Math.max(
        1e-9,
        face.share((x) => x < 0),
      ),
    patch: face.patch(),
    shadow: noseShadow([...face.shadowed((x, y) => !onLip(x, y)), ...lightOn(map.lip).shadowed(onLip)], depth, tipMm),
    aside: before > 0 ? Math.abs(dot(towards, map.face.left)) / before : Number.POSITIVE_INFINITY,
  }
}

const inCheek = (x: number, y: number): boolean =>
  x >= CHEEK.from && x <= CHEEK.to && y <= CHEEK.top && y >= CHEEK.bottom

/** The map as lit, x counted from the midline to the side away from the light. */
class Face {
  private readonly all: readonly number[]

  constructor(
    private readonly map: FaceMap,
    private readonly seen: readonly (CellLight | null)[],
    private readonly farSign: number,
  ) {
    this.all = map.cells.flatMap((cell, i) => (cell ? [i] : []))
  }

  private x = (i: number): number => this.map.cells[i]!.xMm * this.farSign
  private y = (i: number): number => this.map.cells[i]!.yMm
  private where = (is: Where): readonly number[] => this.all.filter((i) => is(this.x(i), this.y(i)))
  private lit = (cells: readonly number[]): readonly number[] => cells.filter((i) => this.seen[i] === 'lit')

  share(is: Where): number {
    const cells = this.where(is)
    return cells.length > 0 ? this.lit(cells).length / cells.length : 0
  }

  patch(): FaceLight['patch'] {
    const reached = [...spreadFrom(this.map, this.seen, this.lit(this.where(inCheek)))]
    const across = (values: readonly number[]) => (values.length > 0 ? Math.max(...values) - Math.min(...values) : 0)
    return {
      joined: reached.some((i) => this.x(i) < 0),
      broadMm: across(reached.map(this.x)),
      longMm: across(reached.map(this.y)),
    }
  }

  /** Cells of the nose's shadow. */
  shadowed(is: Where): readonly ShadowCell[] {
    return this.where((x, y) => is(x, y) && Math.abs(x) <= CHEEK.to && y > MOUTH_MM)
      .filter((i) => this.seen[i] === 'shadow')
      .map((i) => ({ yMm: this.y(i), areaMm2: this.map.stepMm ** 2 }))
  }
}

interface ShadowCell {
  readonly yMm: number
  readonly areaMm2: number
}

function noseShadow(cells: readonly ShadowCell[], noseDepth: number, tipMm: number): FaceLight['shadow'] {
  const sum = (of: (cell: ShadowCell) => number) => cells.reduce((all, cell) => all + of(cell) * cell.areaMm2, 0)
  const area = sum(() => 1)
  return {
    areaMm2: area / noseDepth,
    underTipMm: tipMm - sum(({ yMm }) => yMm) / Math.max(1, area),
    underWings: sum(({ yMm }) => (yMm < NOSE_WING_MM ? 1 : 0)) / Math.max(1, area),
  }
}

/**
 * rim: only the edge of the near cheek; split: the near half alone; Rembrandt: light on the far cheek that the nose's
 * shadow, falling, cuts off from the mouth; loop: a nose shadow falling aside that leaves them joined; butterfly: one
 * straight down; flat: none to see, and both halves alike. What is none of these lies between two.
 */
export function verdictOf(light: FaceLight): Verdict {
  const { nearCheek, farCheek, tip, evenness, patch, shadow, aside } = light
  if (farCheek < NO_LIGHT) {
    if (nearCheek > HALF_FACE) return ['split']
    return nearCheek < A_RIM && !tip ? ['rim'] : ['split', 'rim']
  }
  if (!patch.joined) {
    if (farCheek < A_TRIANGLE || shadow.underWings < FALLS) return ['Rembrandt', 'split']
    const isTriangle = patch.broadMm <= TRIANGLE_MM.broad && patch.longMm <= TRIANGLE_MM.long
    return isTriangle ? ['Rembrandt'] : ['loop', 'Rembrandt']
  }
  if (shadow.areaMm2 < LEAST_SHADOW_MM2 || shadow.underTipMm < FALLS_MM)
    return evenness > EVEN ? ['flat'] : ['flat', 'loop']
  return aside < CENTRED ? ['butterfly'] : ['loop']
}
