/** The figure as one glTF 2.0 binary file with KHR_mesh_quantization. Same asset, same bytes. */
import { type Accessor, type BufferView, CHUNK_BIN, CHUNK_JSON, GLB_MAGIC } from '../glb'
import type { FigureAsset, FigurePart, PartName } from '../types'

const [ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER] = [34962, 34963]
const [BYTE, UNSIGNED_BYTE, SHORT, UNSIGNED_SHORT] = [5120, 5121, 5122, 5123]
const COMPONENT_BYTES: Record<number, number> = { [BYTE]: 1, [UNSIGNED_BYTE]: 1, [SHORT]: 2, [UNSIGNED_SHORT]: 2 }
const FULL_SCALE: Record<number, number> = {
  [BYTE]: 127,
  [UNSIGNED_BYTE]: 255,
  [SHORT]: 32767,
  [UNSIGNED_SHORT]: 65535,
}
/** Reflectances for general viewers; the program sets its own by skin, hair and cloth. */
const VIEWER_COLOURS: Record<PartName, readonly [number, number, number]> = {
  skin: [0.6, 0.44, 0.36],
  eyeLeft: [0.58, 0.545, 0.52],
  eyeRight: [0.58, 0.545, 0.52],
  hair: [0.07, 0.05, 0.038],
  garment: [0.2, 0.21, 0.24],
  headwear: [0.2, 0.21, 0.24],
  glasses: [0.03, 0.03, 0.03],
}

export const writeFigureGlb = ({ parts, headPivot, landmarks }: FigureAsset): Uint8Array =>
  writeParts('sitter', parts, { headPivot, landmarks: rounded(landmarks) })

/** A part that is worn, alone in its file. */
export const writeWornGlb = (part: FigurePart): Uint8Array => writeParts('worn', [part], {})

function writeParts(name: string, parts: readonly FigurePart[], extras: Readonly<Record<string, unknown>>): Uint8Array {
  const data = new DataBuilder()
  const boxes = parts.map((part) => boundingBox(part.mesh.positions))
  const meshes = parts.map((part, i) => writeMesh(data, part, boxes[i], i))
  const json = {
    asset: { version: '2.0', generator: 'figure sculpt' },
    extensionsUsed: ['KHR_mesh_quantization'],
    extensionsRequired: ['KHR_mesh_quantization'],
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [
      { name, children: parts.map((_, i) => i + 1) },
      ...parts.map((part, i) => ({
        name: part.name,
        mesh: i,
        translation: boxes[i].centre,
        scale: [boxes[i].half, boxes[i].half, boxes[i].half],
      })),
    ],
    meshes,
    materials: parts.map(({ name }) => ({
      name,
      pbrMetallicRoughness: { baseColorFactor: [...VIEWER_COLOURS[name], 1], metallicFactor: 0, roughnessFactor: 0.6 },
    })),
    accessors: data.accessors,
    bufferViews: data.views,
    buffers: [{ byteLength: data.byteLength }],
    extras: { unit: 'm', ...extras },
  }
  return container(JSON.stringify(json), data.bytes())
}

/** Landmarks to 0.1 µm: the last bits of a bisection say nothing. */
const rounded = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, v) => (typeof v === 'number' ? Math.round(v * 1e7) / 1e7 : v)))

interface Box {
  readonly centre: readonly number[]
  readonly half: number
}

/** One scale for all axes, so that normals keep their directions; centred on the plane of symmetry where the part is. */
function boundingBox(positions: Float32Array | Float64Array): Box {
  const low = [0, 1, 2].map((k) => extreme(positions, k, Math.min))
  const high = [0, 1, 2].map((k) => extreme(positions, k, Math.max))
  return {
    centre: low.map((v, k) => (v + high[k]) / 2),
    half: Math.max(...low.map((v, k) => (high[k] - v) / 2)),
  }
}

function extreme(positions: Float32Array | Float64Array, axis: number, pick: (a: number, b: number) => number): number {
  let value = positions[axis]
  for (let i = axis; i < positions.length; i += 3) value = pick(value, positions[i])
  return value
}

/** Places where a part's file will have them. */
export function asStored(positions: Float64Array): Float64Array {
  const { centre, half } = boundingBox(positions)
  const step = half / FULL_SCALE[SHORT]
  return positions.map((v, i) => centre[i % 3] + step * roundEvenly((v - centre[i % 3]) / step))
}

function writeMesh(data: DataBuilder, part: FigurePart, box: Box, material: number) {
  const { mesh, name } = part
  const unit = mesh.positions.map((v, i) => (v - box.centre[i % 3]) / box.half)
  // Eyes mirror the lamp: an error in a normal shows there twice over, so theirs are written with 16 bits.
  const normalType = name.startsWith('eye') ? SHORT : BYTE
  const still = part.headWeight.every((w) => w === part.headWeight[0])
  return {
    name,
    primitives: [
      {
        attributes: {
          POSITION: data.addAttribute(unit, 3, SHORT, true),
          NORMAL: data.addAttribute(mesh.normals, 3, normalType),
          ...(part.tint.every((t) => t === 1) ? {} : { COLOR_0: data.addAttribute(part.tint, 3, UNSIGNED_BYTE) }),
        },
        indices: data.addIndices(mesh.indices, mesh.positions.length / 3),
        material,
      },
    ],
    extras: {
      proxyIndices: data.addIndices(part.proxyIndices, mesh.positions.length / 3),
      ...(still ? { headWeight: part.headWeight[0] } : {}),
    },
  }
}

/** Half away from zero, so that a value and its mirror image stay mirror images. */
const roundEvenly = (v: number): number => Math.sign(v) * Math.floor(Math.abs(v) + 0.5)

class DataBuilder {
  readonly accessors: Accessor[] = []
  readonly views: BufferView[] = []
  private readonly chunks: Uint8Array[] = []
  byteLength = 0

  /** Normalised integers; elements start on 4-byte boundaries as §3.6.2.4 asks. */
  addAttribute(values: Float32Array, size: 1 | 3, componentType: number, bounds = false): number {
    const bytes = COMPONENT_BYTES[componentType]
    const stride = Math.ceil((bytes * size) / 4) * 4
    const count = values.length / size
    const view = new DataView(new ArrayBuffer(count * stride))
    const low = new Array<number>(size).fill(Number.POSITIVE_INFINITY)
    const high = new Array<number>(size).fill(Number.NEGATIVE_INFINITY)
    for (let i = 0; i < values.length; i++) {
      const k = i % size
      const c = roundEvenly(values[i] * FULL_SCALE[componentType])
      const at = Math.floor(i / size) * stride + k * bytes
      if (bytes === 1) view.setUint8(at, c & 0xff)
      else view.setUint16(at, c & 0xffff, true)
      low[k] = Math.min(low[k], c)
      high[k] = Math.max(high[k], c)
    }
    const bufferView = this.addView(new Uint8Array(view.buffer), ARRAY_BUFFER, stride)
    this.accessors.push({
      bufferView,
      componentType,
      normalized: true,
      count,
      type: size === 3 ? 'VEC3' : 'SCALAR',
      ...(bounds ? { min: low, max: high } : {}),
    })
    return this.accessors.length - 1
  }

  addIndices(indices: Uint32Array, vertexCount: number): number {
    if (vertexCount > 65_535)
      throw new Error(`writeGlb.addIndices: 16-bit indices hold 65535 vertices, got ${vertexCount}`)
    const bufferView = this.addView(new Uint8Array(Uint16Array.from(indices).buffer), ELEMENT_ARRAY_BUFFER)
    this.accessors.push({ bufferView, componentType: UNSIGNED_SHORT, count: indices.length, type: 'SCALAR' })
    return this.accessors.length - 1
  }

  private addView(chunk: Uint8Array, target: number, byteStride?: number): number {
    this.views.push({
      buffer: 0,
      byteOffset: this.byteLength,
      byteLength: chunk.length,
      ...(byteStride ? { byteStride } : {}),
      target,
    })
    const padded = new Uint8Array(Math.ceil(chunk.length / 4) * 4)
    padded.set(chunk)
    this.chunks.push(padded)
    this.byteLength += padded.length
    return this.views.length - 1
  }

  bytes(): Uint8Array {
    const all = new Uint8Array(this.byteLength)
    let at = 0
    for (const chunk of this.chunks) {
      all.set(chunk, at)
      at += chunk.length
    }
    return all
  }
}

function container(json: string, bin: Uint8Array): Uint8Array {
  const text = new TextEncoder().encode(json)
  const jsonLength = Math.ceil(text.length / 4) * 4
  const out = new Uint8Array(12 + 8 + jsonLength + 8 + bin.length)
  const view = new DataView(out.buffer)
  view.setUint32(0, GLB_MAGIC, true)
  view.setUint32(4, 2, true)
  view.setUint32(8, out.length, true)
  view.setUint32(12, jsonLength, true)
  view.setUint32(16, CHUNK_JSON, true)
  out.fill(0x20, 20, 20 + jsonLength)
  out.set(text, 20)
  view.setUint32(20 + jsonLength, bin.length, true)
  view.setUint32(24 + jsonLength, CHUNK_BIN, true)
  out.set(bin, 28 + jsonLength)
  return out
}
