import type { Plugin } from 'vite'

/** In a library's text, what stands for it so that the builder can see that the page never comes there. */
interface PutDown {
  readonly file: RegExp
  readonly find: RegExp
  readonly put: string
}

const FLAGS = [
  'is(Mesh(Standard|Phong|Lambert|Toon|Physical|Distance|Basic|Normal|Matcap|Depth)|Sprite|Shadow|Points|LineBasic|LineDashed|Node)Material',
  'is(Ambient|Directional|Hemisphere|Point|RectArea|Spot|Sun)?Light',
  'is(Array|Compressed|CompressedArray|CompressedCube|Cube|Data3D|DataArray|External|Framebuffer|HTML|PMREM|Video)Texture',
  'is(WebGLCube|WebGL3D|WebGLArray|XR)RenderTarget',
  'is(Batched|Instanced|Skinned)Mesh',
  'is(ArrayCamera|Fog|FogExp2|Group|LOD|LightProbe|LightProbeGrid|Line|LineLoop|LineSegments|Points|Sprite)',
  'is(Float16BufferAttribute|InterleavedBufferAttribute|InstancedInterleavedBuffer)',
  'isPresenting|needsLights',
  '(?<=material\\.)(map|matcap|\\w+Map|alphaHash|anisotropy|clearcoat|diffuseRoughness|dispersion|iridescence|retroreflectivity|sheen|transmission)',
].join('|')

const PURE = 'styled|memo|forwardRef|v8n|getVectorPlugin|createInternalPlugin|_objectSpread2'

const SCHEMA_METHODS = 'check|clone|max|meta|min|nullable|optional|parse|regex|safeParse'

const PUT_DOWN: readonly PutDown[] = [
  // What three's renderer does only for things that bear a flag which none of ours does.
  {
    file: /three\/src\/renderers\//,
    find: new RegExp(`(?<![\\w.$)\\]])[A-Za-z_]\\w*(\\.\\w+)*\\.(${FLAGS})\\b(?! *=[^=])`, 'g'),
    put: 'false',
  },
  // Colours of the picture are numbers, never names.
  { file: /three\/src\/math\/Color\.js/, find: /(?<=^const _colorKeywords = \{)[^}]*/m, put: '' },
  // Leva registers its own kinds of rows as it is loaded, and styles them: ours is another, and neither is missed.
  { file: /leva\/dist\//, find: /^register\(LevaInputs.*$/gm, put: '' },
  {
    file: /leva\/dist\//,
    find: new RegExp(`(?<!function |[.\\w])((React\\.)?(${PURE})\\()`, 'g'),
    put: '/*@__PURE__*/ $1',
  },
  // A JSON Schema is written by a command, never by the page.
  {
    file: /zod\/v4\/classic\/schemas\.js/,
    find: /^import \* as processors from .*$/m,
    put: 'const processors = {}',
  },
  {
    file: /zod\/v4\/classic\/schemas\.js/,
    find: /^import \{ (createStandardJSONSchemaMethod), (createToJSONSchemaMethod) \} from .*$/m,
    put: 'const $1 = () => {}, $2 = $1',
  },
  // Each of our schemas has words of its own.
  { file: /zod\/v4\/classic\/schemas\.js/, find: /^import en from .*$/m, put: 'const en = () => ({})' },
  // What its schemas can be asked and ours are not.
  {
    file: /zod\/v4\/classic\/schemas\.js/,
    find: new RegExp(
      `^ {4}(?:async )?(?!(?:${SCHEMA_METHODS})\\b)\\w+(?:: (?:async )?function \\w+)?\\(.*\\) \\{\\n(?: {8}.*\\n)+ {4}\\},?$`,
      'gm',
    ),
    put: '',
  },
]

/** The builder then drops what is only reached from there. */
export const putDown: Plugin = {
  name: 'put-down',
  apply: 'build',
  enforce: 'pre',
  transform(code, id) {
    const those = PUT_DOWN.filter(({ file }) => file.test(id) && !id.includes('/@react-three/'))
    if (those.length === 0) return null
    return { code: those.reduce((text, { find, put }) => text.replace(find, put), code), map: null }
  },
}
