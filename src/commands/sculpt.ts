/**
 * npm run sculpt: builds the sitter and what may be worn from their recipes and writes assets/*.glb. Same source, same bytes.
 * npm run sculpt -- FILE PRESET: the sitter in another shape, for looking at elsewhere; the program shapes sitters by itself.
 */
import { createHash } from 'node:crypto'
import { mkdirSync, writeFileSync } from 'node:fs'
import { resolve } from 'node:path'
import {
  type FigurePart,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  SHIPPED,
  SHIPPED_WORN,
  sculptFigure,
  sculptWorn,
  WORN_FILES,
  WORN_NAMES,
  writeFigureGlb,
  writeWornGlb,
} from '../figure'
import { meshoptSimplify } from './meshopt'

const [file, wanted = 'average'] = process.argv.slice(2)
const preset = SHAPE_PRESET_NAMES.find((name) => name === wanted)
if (!preset) throw new Error(`PRESET: expected one of ${SHAPE_PRESET_NAMES.join(', ')}, got ${wanted}`)
const simplify = await meshoptSimplify()

const asset = sculptFigure(SHIPPED, simplify, SHAPE_PRESETS[preset])
save(file ?? 'assets/sitter.glb', asset.parts, writeFigureGlb(asset))
if (!file)
  for (const name of WORN_NAMES) {
    const part = sculptWorn(name, SHIPPED_WORN[name], simplify)
    save(`assets/${WORN_FILES[name]}`, [part], writeWornGlb(part))
  }

function save(path: string, parts: readonly FigurePart[], bytes: Uint8Array): void {
  const target = resolve(path)
  mkdirSync(resolve(target, '..'), { recursive: true })
  writeFileSync(target, bytes)
  for (const { name, mesh, proxyIndices } of parts)
    console.log(
      `${name.padEnd(9)} ${mesh.indices.length / 3} triangles, ${mesh.positions.length / 3} vertices, proxy ${proxyIndices.length / 3}`,
    )
  console.log(`${target}: ${bytes.length} bytes, SHA-256 ${createHash('sha256').update(bytes).digest('hex')}`)
}
