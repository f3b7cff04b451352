/**
 * Counts what a page keeps on the graphics card, from the calls that allocate it: textures and renderbuffers by format
 * and size, no renderer's word taken. Install before the first context is made. The canvas itself is not counted.
 */
const BYTES: Readonly<Record<string, number>> = {
  RGBA32F: 16,
  RGBA16F: 8,
  RGBA8: 4,
  SRGB8_ALPHA8: 4,
  RG32F: 8,
  R32F: 4,
  R8: 1,
  RGBA: 4,
  RED: 1,
  DEPTH_COMPONENT16: 2,
  DEPTH_COMPONENT24: 4,
  DEPTH_COMPONENT32F: 4,
  DEPTH24_STENCIL8: 4,
}

interface Allocation {
  readonly format: string
  readonly width: number
  readonly height: number
  readonly bytes: number
}

const held = new Map<object, Allocation>()

function allocationOf(gl: WebGL2RenderingContext, format: number, width: number, height: number): Allocation {
  const name = Object.keys(BYTES).find((key) => gl[key as keyof WebGL2RenderingContext] === format)
  if (!name) throw new Error(`bench memory: no size known for the internal format 0x${format.toString(16)}`)
  return { format: name, width, height, bytes: BYTES[name] * width * height }
}

export function countMemory(): void {
  const gl = WebGL2RenderingContext.prototype
  let texture: object | null = null
  let buffer: object | null = null
  const keep = (of: object | null, allocation: Allocation) => {
    if (of && allocation.bytes > 0) held.set(of, allocation)
  }
  const { bindTexture, bindRenderbuffer, texStorage2D, renderbufferStorage, deleteTexture, deleteRenderbuffer } = gl
  const texImage2D = gl.texImage2D as (...args: unknown[]) => void
  gl.bindTexture = function (target, bound) {
    texture = bound
    bindTexture.call(this, target, bound)
  }
  gl.bindRenderbuffer = function (target, bound) {
    buffer = bound
    bindRenderbuffer.call(this, target, bound)
  }
  gl.texStorage2D = function (target, levels, format, width, height) {
    keep(texture, allocationOf(this, format, width, height))
    texStorage2D.call(this, target, levels, format, width, height)
  }
  gl.texImage2D = function (this: WebGL2RenderingContext, ...args: unknown[]) {
    const [, level, format, width, height] = args as number[]
    // The shorter form takes a picture element and its size: of data textures only one texel wide, not counted.
    if (args.length >= 9 && level === 0) keep(texture, allocationOf(this, format, width, height))
    texImage2D.apply(this, args)
  } as typeof gl.texImage2D
  gl.renderbufferStorage = function (target, format, width, height) {
    keep(buffer, allocationOf(this, format, width, height))
    renderbufferStorage.call(this, target, format, width, height)
  }
  gl.deleteTexture = function (gone) {
    if (gone) held.delete(gone)
    deleteTexture.call(this, gone)
  }
  gl.deleteRenderbuffer = function (gone) {
    if (gone) held.delete(gone)
    deleteRenderbuffer.call(this, gone)
  }
}

export interface MemoryRow {
  readonly what: string
  readonly count: number
  readonly mib: number
}

/** Rows of equal format and size, largest first, with the sum as the first row. MiB. */
export function heldMemory(): readonly MemoryRow[] {
  const rows = new Map<string, { count: number; bytes: number }>()
  for (const { format, width, height, bytes } of held.values()) {
    const what = `${format} ${width} × ${height}`
    const row = rows.get(what) ?? { count: 0, bytes: 0 }
    rows.set(what, { count: row.count + 1, bytes: row.bytes + bytes })
  }
  const list = [...rows].map(([what, { count, bytes }]) => ({ what, count, mib: bytes / 2 ** 20 }))
  const mib = list.reduce((sum, row) => sum + row.mib, 0)
  return [{ what: 'all', count: held.size, mib }, ...list.sort((a, b) => b.mib - a.mib)]
}
