import { readFileSync } from 'node:fs'
import { type FigureAsset, readFigureAsset } from '../../src/figure'
import { garmentField } from '../../src/figure/sculpt/garment'
import { hairField } from '../../src/figure/sculpt/hair'
import { baseField } from '../../src/figure/sculpt/radiusMap'
import { bustField, skinField } from '../../src/figure/sculpt/skin'

/** The fields and the committed asset, built once for a test file. Fields in millimetres, the asset in metres. */
const base = baseField()
export const bust = bustField(base)
export const skin = skinField(base)
export const hair = hairField(base)
export const garment = garmentField
export const assetBytes = new Uint8Array(readFileSync('assets/sitter.glb'))
export const asset: FigureAsset = readFigureAsset(assetBytes)
export const partOf = (name: string) => {
  const part = asset.parts.find((candidate) => candidate.name === name)
  if (!part) throw new Error(`no part ${name}`)
  return part
}
