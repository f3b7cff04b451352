import type { Mesh } from '../../space'
import { lidTurn } from '../lids'
import type { FigureAsset, PosedFigure } from '../types'
import { PLAIN_WEAR, type Wear } from '../worn/wear'
import { bindingOf, bindStrands, type StrandBinding, type StrandKind } from './binding'
import { brow } from './brows'
import { hairline } from './hairline'
import { lashes } from './lashes'
import { SkinFront } from './skin-front'
import { tips } from './tips'
import { wisps } from './wisps'

/**
 * Lines of the picture in the frame of the head, metres: a PosedFigure's carriage takes them into the room. They are seen only:
 * they cast no shadow, throw no light back and stop no ray.
 */
export interface StrandsAtRest {
  readonly kinds: readonly StrandKind[]
  /** First point of each strand, and last the count of points. */
  readonly starts: Uint32Array
  readonly positions: Float32Array
  /** Unit; along the strand, and of the surface that it is lit as. */
  readonly tangents: Float32Array
  readonly normals: Float32Array
  readonly halfWidthsM: Float32Array
  /** Vertex of the part that they are tied to whose carried light each point takes. */
  readonly roots: Uint32Array
  /** Of each point, how far it follows the head. */
  readonly headWeights: Float32Array
}

/** Lashes, brows, wet edges and the hairline's hairs of the first sitter, for all shaped from it who wear that. Warm, 250 ms on a busy core. */
export function growStrands({ parts }: FigureAsset, wear: Wear = PLAIN_WEAR): StrandBinding {
  const skin = parts.find(({ name }) => name === 'skin')
  if (!skin) throw new Error('figure.growStrands: expected a part named skin, got none')
  const sides = [1, -1] as const
  const ofFace = sides.flatMap((side) => [...lashes(side), ...brow(side)])
  return bindingOf([...bindStrands(new SkinFront(skin.mesh), ofFace), ...hairline(skin.mesh, wear)])
}

/** Wisps on the hair of the first sitter as dressed, for all shaped from it who wear that; none where no hair shows. */
export function growWisps({ parts }: FigureAsset, wear: Wear = PLAIN_WEAR): StrandBinding {
  const hair = parts.find(({ name }) => name === 'hair')
  return bindingOf(hair ? [...wisps(hair, wear), ...(wear.hairCut === 'long' ? tips(hair) : [])] : [])
}

/** Where strands that the lids take along are on a sitter of the binding's own skin, in whatever shape, looking as posed. */
export function lidStrands(binding: StrandBinding, posed: PosedFigure): StrandsAtRest {
  const { rest, part } = partOf(posed, 'skin')
  return strandsOn(binding, rest, part.headWeight, posed.gaze.upDeg)
}

/** The same of those that they do not. Without strands nobody asks for the part. */
export function restStrands(binding: StrandBinding, posed: PosedFigure, on: 'skin' | 'hair' = 'skin'): StrandsAtRest {
  const { mesh, headWeight } = partOf(posed, binding.kinds.length > 0 ? on : 'skin').part
  return strandsOn(binding, mesh, headWeight, 0)
}

function partOf({ parts }: PosedFigure, on: 'skin' | 'hair'): PosedFigure['parts'][number] {
  const part = parts.find(({ name }) => name === on)
  if (!part) throw new Error(`figure.strands: expected a part named ${on}, got none`)
  return part
}

/** mesh: before any pose. upDeg: of the gaze, which the lids follow. */
function strandsOn(binding: StrandBinding, mesh: Mesh, headWeight: Float32Array, upDeg: number): StrandsAtRest {
  const { starts, corners, weights, kinds, lids } = binding
  const headWeights = Float32Array.from(binding.halfWidthsM, (_, i) =>
    [0, 1, 2].reduce((sum, k) => sum + weights[i * 3 + k] * headWeight[corners[i * 3 + k]], 0),
  )
  const count = starts[starts.length - 1]
  const positions = new Float32Array(count * 3)
  const normals = new Float32Array(count * 3)
  const { positions: p, normals: n } = mesh
  lids.forEach((lid, strand) => {
    const turn = lid ? lidTurn(upDeg, lid) : 0
    const [c, s] = [Math.cos(turn), Math.sin(turn)]
    const facing = lid === null ? null : FACING[lid === 'lower' ? 'lower' : 'upper']
    for (let i = starts[strand]; i < starts[strand + 1]; i++) {
      const at = i * 3
      const [y, z] = [binding.offsets[at + 1], binding.offsets[at + 2]]
      // Turned with its lid about the head's axis across.
      const offset = [binding.offsets[at], y * c + z * s, z * c - y * s]
      let size = 0
      for (let k = 0; k < 3; k++) {
        let [place, normal] = [0, 0]
        for (let j = at; j < at + 3; j++) {
          place += weights[j] * p[corners[j] * 3 + k]
          normal += weights[j] * n[corners[j] * 3 + k]
        }
        positions[at + k] = place + binding.liftsM[i] * normal + offset[k]
        normals[at + k] = facing ? facing[k] : normal
        size += normals[at + k] ** 2
      }
      for (let k = 0; k < 3; k++) normals[at + k] /= Math.sqrt(size)
    }
  })
  return {
    kinds,
    starts,
    positions,
    normals,
    tangents: tangentsOf(positions, starts),
    halfWidthsM: binding.halfWidthsM,
    headWeights,
    roots: Uint32Array.from({ length: count }, (_, i) => corners[i * 3 + heaviest(weights, i)]),
  }
}

/** How lashes, and what is wet between lid and ball, are lit as: up and forward. */
const FACING = { upper: [0, 0.35, 0.94], lower: [0, 0.6, 0.8] } as const

function heaviest(weights: Float32Array, i: number): number {
  const [a, b, c] = weights.subarray(i * 3, i * 3 + 3)
  return a >= b && a >= c ? 0 : b >= c ? 1 : 2
}

function tangentsOf(p: Float32Array, starts: Uint32Array): Float32Array {
  const out = new Float32Array(p.length)
  for (let strand = 0; strand + 1 < starts.length; strand++) {
    const [first, last] = [starts[strand], starts[strand + 1] - 1]
    for (let i = first; i <= last; i++) {
      const [from, to] = [Math.max(first, i - 1) * 3, Math.min(last, i + 1) * 3]
      const size = Math.hypot(p[to] - p[from], p[to + 1] - p[from + 1], p[to + 2] - p[from + 2]) || 1
      for (let k = 0; k < 3; k++) out[i * 3 + k] = (p[to + k] - p[from + k]) / size
    }
  }
  return out
}
