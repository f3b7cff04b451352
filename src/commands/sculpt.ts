/**
 * npm run sculpt: builds the sitter from its recipe and writes assets/sitter.glb. Same source, same bytes.
 * npm run sculpt -- FILE PRESET: the sitter in another shape, for looking at elsewhere; the program shapes sitters by itself.
 */
import { createHash } from 'node:crypto'
import { mkdirSync, writeFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { SHAPE_PRESET_NAMES, SHAPE_PRESETS, SHIPPED, sculptFigure, writeFigureGlb } from '../figure'
import { meshoptSimplify } from './meshopt'

const target = resolve(process.argv[2] ?? 'assets/sitter.glb')
const wanted = process.argv[3] ?? 'average'
const preset = SHAPE_PRESET_NAMES.find((name) => name === wanted)
if (!preset) throw new Error(`PRESET: expected one of ${SHAPE_PRESET_NAMES.join(', ')}, got ${wanted}`)
const started = process.hrtime.bigint()
const asset = sculptFigure(SHIPPED, await meshoptSimplify(), SHAPE_PRESETS[preset])
const bytes = writeFigureGlb(asset)
mkdirSync(resolve(target, '..'), { recursive: true })
writeFileSync(target, bytes)
for (const { name, mesh, proxyIndices } of asset.parts)
  console.log(
    `${name.padEnd(9)} ${mesh.indices.length / 3} triangles, ${mesh.positions.length / 3} vertices, proxy ${proxyIndices.length / 3}`,
  )
const seconds = Number(process.hrtime.bigint() - started) / 1e9
const digest = createHash('sha256').update(bytes).digest('hex')
console.log(`${target}: ${bytes.length} bytes in ${seconds.toFixed(1)} s, SHA-256 ${digest}`)
