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

/** We build trees with three-mesh-bvh and walk them ourselves: its own queries stay out. */
const BVH_QUERIES: readonly LeftOut[] = [
  ['math/OrientedBox', 'OrientedBox'],
  ['utils/ExtendedTrianglePool', 'ExtendedTrianglePool'],
  ['utils/GeometryRayIntersectUtilities', 'convertRaycastIntersect'],
  ['BVHTraversalHelper', 'BVHTraversalHelper'],
  ['cast/bvhcast', 'bvhcast'],
  ['cast/shapecast', 'shapecast'],
  ['cast/closestPointToPoint', 'closestPointToPoint'],
  ...['', '_indirect'].flatMap((kind) => [
    ...['closestPointToGeometry', 'intersectsGeometry', 'raycast', 'raycastFirst', 'refit'].map((name) => [
      `cast/${name}${kind}.generated`,
      `${name}${kind}`,
    ]),
    [`utils/iterationUtils${kind}.generated`, `iterateOverTriangles${kind}`],
  ]),
].map(([file, name]) => ({ asks: 'three-mesh-bvh', module: `/${file}.js`, instead: `export function ${name}() {}` }))

/** Leva asks of each value which of its own kinds it is; ours name their kind. */
const V8N = `const never = new Proxy(() => never, { get: (_, name) => (name === 'test' ? () => false : never) })
export default never`

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
  {
    asks: 'three',
    module: '/WebGLLights.js',
    instead: `const none = []
      export const WebGLLights = function () {
        this.setup = this.setupView = () => {}
        this.state = {
          version: 0, numSpotLightShadowsWithMaps: 0, numLightProbes: 0,
          sun: none, directional: none, point: none, spot: none, spotLightMap: none, rectArea: none, hemi: none,
          sunShadowMap: none, directionalShadowMap: none, pointShadowMap: none, spotShadowMap: none,
        }
      }`,
  },
  {
    asks: 'three',
    module: '/WebGLMaterials.js',
    instead: `export const WebGLMaterials = function () {
      this.refreshMaterialUniforms = (uniforms, material) => { material.uniformsNeedUpdate = false }
    }`,
  },
  {
    asks: 'three',
    module: '/WebGLClipping.js',
    instead: `export const WebGLClipping = function () {
      this.numPlanes = this.numIntersection = 0
      this.init = () => false
    }`,
  },
  {
    asks: 'three',
    module: '/WebGLBackground.js',
    instead: `import { Color } from 'three/src/math/Color.js'
      export const WebGLBackground = function (renderer, environments, state) {
        const color = new Color(0)
        let alpha = 0
        this.render = () => state.buffers.color.setClear(color.r, color.g, color.b, alpha, true)
        this.getClearColor = () => color
        this.getClearAlpha = () => alpha
        this.setClearColor = (to, itsAlpha = 1) => {
          color.set(to)
          alpha = itsAlpha
          this.render()
        }
        this.setClearAlpha = (to) => this.setClearColor(color, to)
        this.addToRenderList = this.dispose = () => {}
      }`,
  },
  ...BVH_QUERIES,
  { asks: 'leva', module: 'v8n', instead: V8N },
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
        importer?.includes(`/node_modules/${asks}/`) &&
        !importer.includes('/@react-three/') &&
        (source === module || source.endsWith(module)),
    )
    return found < 0 ? null : `${PREFIX}${LEFT_OUT[found]!.asks}/${found}`
  },
  load: (id) => (id.startsWith(PREFIX) ? LEFT_OUT[Number(id.split('/')[1])]!.instead : null),
}
