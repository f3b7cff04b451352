import type { Plugin } from 'vite'

/** A module that a library brings along and that nothing of the page reaches, and what stands in for it. */
interface LeftOut {
  /** Path, or name as it is imported, at its end. */
  readonly module: string
  /** Only where this library asks for it. */
  readonly asks: string
  readonly instead: string
}

const component = (...names: readonly string[]): string =>
  `const inner = ({ children }) => children ?? null\n${names.map((name) => `export const ${name} = inner`).join('\n')}`

/**
 * All materials of the picture are raw: three's own shaders, shadow and reflection maps, headsets, shapes that blend and its filters are never asked for.
 * Of leva the page has panels and rows: no colours, no dropped images, no hints, no panel that is dragged.
 */
const LEFT_OUT: readonly LeftOut[] = [
  { asks: 'three', module: '/ShaderChunk.js', instead: 'export const ShaderChunk = {}' },
  { asks: 'three', module: '/ShaderLib.js', instead: 'export const ShaderLib = {}' },
  { asks: 'three', module: '/DFGLUTData.js', instead: 'export const getDFGLUT = () => null' },
  {
    asks: 'three',
    module: '/WebGLEnvironments.js',
    instead: 'export const WebGLEnvironments = function () { return { get: () => null, dispose() {} } }',
  },
  {
    asks: 'three',
    module: '/WebGLShadowMap.js',
    instead: 'export const WebGLShadowMap = function () { this.render = () => {} }',
  },
  { asks: 'three', module: '/WebGLMorphtargets.js', instead: 'export const WebGLMorphtargets = function () {}' },
  { asks: 'three', module: '/WebGLOutput.js', instead: 'export class WebGLOutput {}' },
  {
    asks: 'three',
    module: '/WebXRManager.js',
    instead: `export class WebXRManager {
      enabled = false
      isPresenting = false
      addEventListener() {}
      removeEventListener() {}
      setAnimationLoop() {}
      getEnvironmentBlendMode() {}
      dispose() {}
    }`,
  },
  {
    asks: 'leva',
    module: 'react-dropzone',
    instead:
      'export const useDropzone = () => ({ getRootProps: () => ({}), getInputProps: () => ({}), isDragAccept: false })',
  },
  { asks: 'leva', module: 'react-colorful', instead: component('RgbaColorPicker', 'RgbColorPicker') },
  {
    asks: 'leva',
    module: '@radix-ui/react-tooltip',
    instead: component('Provider', 'Root', 'Trigger', 'Portal', 'Content', 'Arrow'),
  },
  { asks: 'leva', module: 'colord/plugins/names', instead: 'export default null' },
  {
    asks: 'leva',
    module: 'colord',
    instead: `export const extend = () => {}
      export const getFormat = () => undefined
      export const colord = () => ({ isValid: () => false })`,
  },
  { asks: 'leva', module: '@use-gesture/react', instead: 'export const useDrag = () => () => ({})' },
]

const PREFIX = '\0left-out:'

/** What is built goes without them; tests of the built page and its pictures tell whether one is missed. */
export const leftOut: Plugin = {
  name: 'left-out',
  apply: 'build',
  enforce: 'pre',
  resolveId(source, importer) {
    const found = LEFT_OUT.findIndex(
      ({ module, asks }) =>
        importer?.includes(`/node_modules/${asks}/`) && (source === module || source.endsWith(module)),
    )
    return found < 0 ? null : `${PREFIX}${LEFT_OUT[found]!.asks} ${found}`
  },
  load: (id) => (id.startsWith(PREFIX) ? LEFT_OUT[Number(id.split(' ')[1])]!.instead : null),
}
