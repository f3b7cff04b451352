/**
 * The container of glTF 2.0 in binary form: a header, a JSON chunk and a binary chunk, and typed reads of accessors.
 * Khronos glTF 2.0 specification §4.4 (GLB) and §3.6.2 (accessors); KHR_mesh_quantization for the narrow attributes.
 */
export const GLB_MAGIC = 0x46546c67
export const CHUNK_JSON = 0x4e4f534a
export const CHUNK_BIN = 0x004e4942

export interface Accessor {
  readonly bufferView: number
  readonly byteOffset?: number
  readonly componentType: number
  readonly normalized?: boolean
  readonly count: number
  readonly type: 'SCALAR' | 'VEC3'
  readonly min?: readonly number[]
  readonly max?: readonly number[]
}

export interface BufferView {
  readonly buffer: number
  readonly byteOffset?: number
  readonly byteLength: number
  readonly byteStride?: number
  readonly target?: number
}

export interface Primitive {
  readonly attributes: Readonly<Record<string, number>>
  readonly indices: number
  readonly material?: number
}

export interface GltfJson {
  readonly asset: { readonly version: string; readonly generator?: string }
  readonly accessors: readonly Accessor[]
  readonly bufferViews: readonly BufferView[]
  readonly meshes: readonly {
    readonly name: string
    readonly primitives: readonly Primitive[]
    readonly extras?: unknown
  }[]
  readonly nodes: readonly {
    readonly name: string
    readonly mesh?: number
    readonly children?: readonly number[]
    readonly translation?: readonly number[]
    readonly scale?: readonly number[]
  }[]
  readonly extras?: unknown
}

export interface Glb {
  readonly json: GltfJson
  readonly bin: DataView
}

/** An error for whoever maintains the asset: where, what was expected, what was found. */
export class FigureFileError extends Error {
  constructor(path: string, expected: string, got: unknown) {
    super(`figure asset: ${path}: expected ${expected}, got ${String(got)}; rebuild it with npm run sculpt`)
    this.name = 'FigureFileError'
  }
}

export function need<T>(value: T | undefined | null, path: string, expected: string): T {
  if (value === undefined || value === null) throw new FigureFileError(path, expected, 'nothing')
  return value
}

export function parseGlb(bytes: ArrayBuffer | Uint8Array): Glb {
  const view =
    bytes instanceof Uint8Array ? new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength) : new DataView(bytes)
  if (view.byteLength < 20) throw new FigureFileError('file', 'a GLB of at least 20 bytes', `${view.byteLength} bytes`)
  if (view.getUint32(0, true) !== GLB_MAGIC) throw new FigureFileError('file', 'the letters glTF first', 'other bytes')
  if (view.getUint32(4, true) !== 2) throw new FigureFileError('version', '2', view.getUint32(4, true))
  if (view.getUint32(8, true) !== view.byteLength)
    throw new FigureFileError('length', `${view.getUint32(8, true)} bytes as its header says`, view.byteLength)
  const json = chunk(view, 12, CHUNK_JSON, 'JSON chunk')
  const bin = chunk(view, 20 + json.byteLength, CHUNK_BIN, 'binary chunk')
  return { json: parseJson(json), bin }
}

function chunk(view: DataView, at: number, type: number, name: string): DataView {
  if (at + 8 > view.byteLength) throw new FigureFileError(name, `a chunk at byte ${at}`, 'the end of the file')
  const length = view.getUint32(at, true)
  if (view.getUint32(at + 4, true) !== type)
    throw new FigureFileError(name, 'its type code', view.getUint32(at + 4, true))
  if (at + 8 + length > view.byteLength) throw new FigureFileError(name, `${length} bytes`, view.byteLength - at - 8)
  return new DataView(view.buffer, view.byteOffset + at + 8, length)
}

function parseJson(bytes: DataView): GltfJson {
  const text = new TextDecoder().decode(bytes)
  try {
    return JSON.parse(text) as GltfJson
  } catch (error) {
    throw new FigureFileError('JSON chunk', 'JSON', error instanceof Error ? error.message : error)
  }
}

/** Component types of §3.6.2.2: bytes, reader, and the divisor when normalised (signed: max(c / divisor, −1)). */
const COMPONENTS: Readonly<
  Record<number, { bytes: number; divisor: number; read: (v: DataView, at: number) => number }>
> = {
  5120: { bytes: 1, divisor: 127, read: (v, at) => v.getInt8(at) },
  5121: { bytes: 1, divisor: 255, read: (v, at) => v.getUint8(at) },
  5122: { bytes: 2, divisor: 32767, read: (v, at) => v.getInt16(at, true) },
  5123: { bytes: 2, divisor: 65535, read: (v, at) => v.getUint16(at, true) },
  5125: { bytes: 4, divisor: 1, read: (v, at) => v.getUint32(at, true) },
  5126: { bytes: 4, divisor: 1, read: (v, at) => v.getFloat32(at, true) },
}

interface Layout {
  readonly accessor: Accessor
  readonly size: number
  readonly start: number
  readonly stride: number
}

function layoutOf({ json, bin }: Glb, index: number, path: string): Layout {
  const accessor = need(json.accessors?.[index], `${path} → accessors[${index}]`, 'an accessor')
  const view = need(
    json.bufferViews?.[accessor.bufferView],
    `${path} → bufferViews[${accessor.bufferView}]`,
    'a buffer view',
  )
  const component = need(COMPONENTS[accessor.componentType], `${path}.componentType`, 'one of 5120 to 5126')
  const size = accessor.type === 'VEC3' ? 3 : 1
  const stride = view.byteStride ?? component.bytes * size
  const start = (view.byteOffset ?? 0) + (accessor.byteOffset ?? 0)
  const end = start + (accessor.count - 1) * stride + component.bytes * size
  if (end > bin.byteLength) throw new FigureFileError(path, `${end} bytes of data`, bin.byteLength)
  return { accessor, size, start, stride }
}

/** Decoded numbers, normalised where the accessor says so. */
export function readFloats(glb: Glb, index: number, path: string): Float32Array {
  const { accessor, size, start, stride } = layoutOf(glb, index, path)
  const { bytes, divisor, read } = COMPONENTS[accessor.componentType]
  const scale = accessor.normalized ? 1 / divisor : 1
  const out = new Float32Array(accessor.count * size)
  for (let i = 0, o = 0; i < accessor.count; i++)
    for (let k = 0; k < size; k++) {
      const value = read(glb.bin, start + i * stride + k * bytes) * scale
      out[o++] = accessor.normalized && value < -1 ? -1 : value
    }
  return out
}

/** Triangle corners, each below vertexCount. */
export function readIndices(glb: Glb, index: number, vertexCount: number, path: string): Uint32Array {
  const { accessor, start, stride } = layoutOf(glb, index, path)
  if (accessor.count % 3 !== 0) throw new FigureFileError(path, 'three indices a triangle', `${accessor.count} indices`)
  const { read } = COMPONENTS[accessor.componentType]
  const out = new Uint32Array(accessor.count)
  for (let i = 0; i < out.length; i++) {
    out[i] = read(glb.bin, start + i * stride)
    if (out[i] >= vertexCount) throw new FigureFileError(`${path}[${i}]`, `a vertex below ${vertexCount}`, out[i])
  }
  return out
}
