import { readFileSync } from 'node:fs'
import { type FigureAsset, readFigureAsset, readWornPart, type WornName } from '../../../src/figure'
import { milliseconds, row } from '../clock'

const FILES: readonly (readonly [WornName, string])[] = [
  ['longHair', 'long-hair'],
  ['covering', 'covering'],
  ['hat', 'hat'],
]

/** From the bytes of a file to the meshes; what their looks need is made when it is asked for. The first time holds the compiling too: asked is 150 ms on a laptop. */
export function benchDecode(): FigureAsset {
  const bytes = readFileSync('assets/sitter.glb')
  let figure: FigureAsset | null = null
  const first = milliseconds(() => {
    figure = readFigureAsset(bytes)
  }, 1)
  const size = (of: Uint8Array) => `${(of.length / 1e6).toFixed(2)} MB`
  row('sitter.glb decoded, the first time', first, 'ms', size(bytes))
  row(
    'sitter.glb decoded',
    milliseconds(() => void readFigureAsset(bytes)),
    'ms',
  )
  row(
    'what only the picture asks of it: grain, gloss, seams, coarse triangles of each vertex, the first time',
    milliseconds(() => {
      for (const part of figure!.parts) void [part.combed, part.grain, part.gloss, part.seams, part.proxyWeights]
    }, 1),
    'ms',
  )
  for (const [name, file] of FILES) {
    const part = readFileSync(`assets/${file}.glb`)
    row(
      `${file}.glb decoded, the first time`,
      milliseconds(() => void readWornPart(name, part), 1),
      'ms',
      size(part),
    )
  }
  return figure!
}
