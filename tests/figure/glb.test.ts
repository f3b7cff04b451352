import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { meshoptSimplify } from '../../src/commands/meshopt'
import { readFigureAsset, type SculptOptions, SHIPPED, sculptFigure, writeFigureGlb } from '../../src/figure'
import { softened } from '../../src/figure/worn/soft'
import { asset, assetBytes } from './sculpture'

const ROUGH: SculptOptions = {
  coarseness: 6,
  skinTriangles: 3_000,
  hairTriangles: 1_500,
  garmentTriangles: 900,
  proxyTriangles: { skin: 1_000, eye: 200, hair: 500, garment: 300 },
}
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')
const jsonOf = (bytes: Uint8Array) => {
  const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(12, true)
  return { length, text: new TextDecoder().decode(bytes.subarray(20, 20 + length)) }
}

/** The file with its JSON changed and both lengths put right. */
function edited(change: (json: Record<string, unknown>) => void): Uint8Array {
  const { length, text } = jsonOf(assetBytes)
  const json = JSON.parse(text)
  change(json)
  const raw = new TextEncoder().encode(JSON.stringify(json))
  const padded = new Uint8Array(Math.ceil(raw.length / 4) * 4).fill(0x20)
  padded.set(raw)
  const out = new Uint8Array(assetBytes.length - length + padded.length)
  out.set(assetBytes.subarray(0, 20))
  out.set(padded, 20)
  out.set(assetBytes.subarray(20 + length), 20 + padded.length)
  const view = new DataView(out.buffer)
  view.setUint32(8, out.length, true)
  view.setUint32(12, padded.length, true)
  return out
}

describe('the file keeps to glTF 2.0', () => {
  const json = JSON.parse(jsonOf(assetBytes).text)

  test('at most 1.5 MB', () => expect(assetBytes.length).toBeLessThanOrEqual(1_500_000))

  test('chunks and buffer views lie on 4-byte boundaries (§4.4.3, §3.6.2.4)', () => {
    expect(jsonOf(assetBytes).length % 4).toBe(0)
    for (const view of json.bufferViews) {
      expect(view.byteOffset % 4).toBe(0)
      if (view.byteStride) expect(view.byteStride % 4).toBe(0)
      expect(view.byteOffset + view.byteLength).toBeLessThanOrEqual(json.buffers[0].byteLength)
    }
  })

  test('narrow attributes are declared, with integer bounds of POSITION (KHR_mesh_quantization)', () => {
    expect(json.extensionsRequired).toEqual(['KHR_mesh_quantization'])
    for (const mesh of json.meshes) {
      const position = json.accessors[mesh.primitives[0].attributes.POSITION]
      expect(position).toMatchObject({ componentType: 5122, normalized: true, type: 'VEC3' })
      expect([...position.min, ...position.max].every(Number.isInteger)).toBe(true)
      expect(json.accessors[mesh.primitives[0].indices].count % 3).toBe(0)
    }
  })
})

describe('a broken file says where and what', () => {
  test.each<readonly [string, () => Uint8Array, RegExp]>([
    ['empty', () => new Uint8Array(4), /file: expected a GLB of at least 20 bytes, got 4 bytes/],
    ['not a GLB', () => new Uint8Array(40), /expected the letters glTF/],
    ['cut short', () => assetBytes.slice(0, 1000), /length: expected \d+ bytes as its header says, got 1000/],
    [
      'a part missing',
      () => edited((json) => (json.nodes as { name: string }[]).splice(4, 1)),
      /nodes "hair": expected a node of that name, got nothing/,
    ],
    [
      'a landmark missing',
      () => edited((json) => delete (json.extras as { landmarks: Record<string, unknown> }).landmarks.noseTip),
      /extras\.landmarks\.noseTip: expected a place/,
    ],
    [
      'an accessor past the end',
      () =>
        edited((json) => {
          ;(json.accessors as { count: number }[])[0].count = 10_000_000
        }),
      /POSITION: expected \d+ bytes of data/,
    ],
    [
      'an index past the vertices',
      () =>
        edited((json) => {
          for (const a of json.accessors as { count: number; type: string }[]) if (a.type === 'VEC3') a.count = 100
        }),
      /indices\[\d+\]: expected a vertex below 100/,
    ],
  ])('%s', (_, make, message) => {
    expect(() => readFigureAsset(make())).toThrow(message)
    expect(() => readFigureAsset(make())).toThrow(/npm run sculpt/)
  })
})

test('an ArrayBuffer reads as its bytes do', () => {
  const copy = assetBytes.slice()
  const bytesOf = (array: Float32Array) => new Uint8Array(array.buffer)
  const { positions } = readFigureAsset(copy.buffer).parts[0].mesh
  expect(sha256(bytesOf(positions))).toBe(sha256(bytesOf(asset.parts[0].mesh.positions)))
})

test('sculpting twice gives equal bytes, and reading gives back what was written to within the steps of its integers', async () => {
  const simplify = await meshoptSimplify()
  const figure = sculptFigure(ROUGH, simplify)
  const bytes = writeFigureGlb(figure)
  expect(sha256(writeFigureGlb(sculptFigure(ROUGH, simplify)))).toBe(sha256(bytes))
  const read = readFigureAsset(bytes)
  read.parts.forEach((part, i) => {
    const was = figure.parts[i]
    expect(part.mesh.indices).toEqual(was.mesh.indices)
    const worst = (a: Float32Array, b: Float32Array) => a.reduce((most, v, k) => Math.max(most, Math.abs(v - b[k])), 0)
    expect(worst(part.mesh.positions, was.mesh.positions)).toBeLessThan(8e-6)
    // In hair's softened sums a step of its integers may turn a normal at the sharpest edge by 3°.
    const isHair = part.name === 'hair'
    const normals = (isHair ? softened(was) : was).mesh.normals
    expect(worst(part.mesh.normals, normals)).toBeLessThan(isHair ? 0.05 : 0.009)
    expect(worst(part.tint, was.tint)).toBeLessThanOrEqual(0.5 / 255 + 1e-6)
    // Of the written places: a step of 8 µm along a ramp that is 77 mm long.
    expect(worst(part.headWeight, was.headWeight)).toBeLessThan(2e-4)
  })
})

/** A full build takes 10 to 60 s: run with SCULPT=1, before a release and after any change to the recipe. */
test.runIf(process.env.SCULPT)(
  'the committed asset is what the recipe gives',
  async () => {
    const bytes = writeFigureGlb(sculptFigure(SHIPPED, await meshoptSimplify()))
    expect(sha256(bytes)).toBe(sha256(assetBytes))
  },
  300_000,
)
