import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Plugin } from 'vite'

/**
 * In what is built the threads are entries of the page's own graph, so that what they share with it comes once; by itself Vite bundles
 * them apart, with copies of all of it.
 */
export function threadsShareChunks(): Plugin {
  let thread = ''
  return {
    name: 'threads-share-chunks',
    apply: 'build',
    enforce: 'pre',
    buildStart() {
      thread = this.emitFile({ type: 'chunk', id: fileURLToPath(new URL('../ui/worker.ts', import.meta.url)) })
    },
    transform(code) {
      const shared = code.replace(
        /new URL\('[./]*\/worker\.ts', import\.meta\.url\)/,
        `import.meta.ROLLUP_FILE_URL_${thread}`,
      )
      return shared === code ? null : shared
    },
  }
}

/** Threads take of three what they use, module by module; the walk round, which is handed all of it by name, has a copy of its own. */
export const threeInParts: Plugin = {
  name: 'three-in-parts',
  apply: 'build',
  enforce: 'pre',
  resolveId(source, importer) {
    if (source !== 'three' || !importer || /@react-three|three-stdlib|\/ui\/walk\//.test(importer)) return null
    return this.resolve('three/src/Three.js', importer, { skipSelf: true })
  },
}

/** What a driver skips, comments apart; the blank between two signs stays. */
const SKIPPED: readonly (readonly [RegExp, string])[] = [
  [/\s*([*/=<>!?:;,(){}|&[\]])\s*/g, '$1'],
  [/(?<![-+])\s*([-+])\s*(?![-+])/g, '$1'],
  [/(?<![\w.])(\d+)\.0(?!\d)/g, '$1.'],
  [/(?<![\w.])0\.(?=\d)/g, '.'],
]

/** A line that begins with //# is an order to our own code, one with # to the driver. */
const bareLine = (line: string): string =>
  (/^\s*(#|\/\/#)/.test(line) ? line : SKIPPED.reduce((bare, [what, by]) => bare.replace(what, by), line)).trim()

/** Shaders without what a driver skips. */
export const bareShaders: Plugin = {
  name: 'bare-shaders',
  apply: 'build',
  enforce: 'pre',
  load(id) {
    if (!id.endsWith('.glsl?raw')) return null
    const lines = readFileSync(id.replace('?raw', ''), 'utf8')
      .replace(/\/\/(?!#).*$/gm, '')
      .split('\n')
      .map(bareLine)
    return `export default ${JSON.stringify(lines.filter(Boolean).join('\n'))}`
  },
}

/** What three's geometry is made of: the thread that reads the light needs no more of it. */
const THREE_VALUES =
  /three\/src\/(math\/|constants|utils|core\/(BufferGeometry|BufferAttribute|Object3D|EventDispatcher|Layers)\.)/

const group = (name: string, test: RegExp, priority: number) => ({
  name,
  test,
  priority,
  includeDependenciesRecursively: false,
})

/**
 * Rooms that page and threads share, and what a thread needs and the page does not: left to itself the builder makes a chunk of each
 * handful of modules, which pack worse, and adds small parts of the page to large ones.
 */
export const CHUNKS = [
  group('three-values', THREE_VALUES, 3),
  group('three', /three\/src\/|\0left-out:three\//, 2),
  group('render', /\/src\/render\/(?!support)/, 1),
  group('light', /\/src\/(bounce|rays)\/|three-mesh-bvh/, 1),
  group('readings', /\/src\/(readings|meter)\/(?!solve|compare)/, 1),
  group(
    'set',
    /\/src\/(space|photometry|camera|figure|gear|sitting|rig)\/(?!stopsMap|isolines|edits\/variants)|\/scenes\/notice-board|node_modules\/zod\//,
    1,
  ),
]
