/**
 * Buffer layouts, each named once: the packers below and the shaders read the same table, so that no texel is counted
 * by hand. A row of a data texture is one record; a column is one RGBA32F texel of it.
 */
import { EYE_MAP_REACH } from '../rig'
import { FACE_MAP } from './face-map'

type Layout<Name extends string> = Readonly<Record<Name, number>> & { readonly columns: number }

function layout<const Names extends readonly string[]>(names: Names): Layout<Names[number]> {
  const places = Object.fromEntries(names.map((name, column) => [name, column]))
  return { ...places, columns: names.length } as Layout<Names[number]>
}

/** One lit point of an emitter (or virtual point of a panel) with its shadow map. */
export const SAMPLE = layout([
  /** World position; weight of the point's area in the batch, m². */
  'point',
  /** World normal; row of the emitter in the emitter table (virtual point: α of its glossy part). */
  'normal',
  /** Towards the lamp point, world, and its cosine. Virtual point: matt luminance per band, count of directions. */
  'incident',
  /** As lobeLuminance takes them. */
  'lobes',
  'beams',
  /**
   * Half the side of the patch that the point stands for, m; area of a virtual point's disc, m² (else 0); kind of gate;
   * share of what it sends to the sitters that the source's own dish and body let through.
   */
  'patch',
  /** World, as circlePass takes them. */
  'circlePlane',
  'circle',
  /** Only where several sources are drawn as one: its source's colour, luminance 1, and its index in the rig. */
  'tint',
  /** Rows of world → clip of the shadow map, w less near; the shading needs no clipZ, since depth follows from w. */
  'clipX',
  'clipY',
  'clipZ',
  'clipW',
  /** near in m (0: no map); A of the stored depth A·(w − near)/w; half tiles of blur per m of patch and unit of depth. */
  'map',
  /** Places of the blur's taps over the square −1 to 1, two a column. */
  'tap',
  'tap2',
  'tap4',
  'tap6',
  /** Along the skin, m: from where light comes out to where it came in, by the pixel's own two axes. And how much that counts, per band. */
  'scatter',
  /** Last of it: 1 if anything but the sitters may stand between the point and them. */
  'scatterShare',
  /** First of the source directions of a virtual point: direction; then strength per band. */
  'glossy',
])

export const EMITTER = layout([
  'origin',
  'axisX',
  'axisY',
  'axisZ',
  /** The two vec4 of photometry's packGate. */
  'gateA',
  'gateB',
  /** Half width and height of the face map's plane, m; 1 if there is a map; by what its luminance counts. */
  'face',
  /** Of its light, luminance 1; index of its source in the rig. Only where several sources are drawn as one. */
  'tint',
  /** Ball around the dish and body in the source's own light; radius 0: there is none. */
  'ownBall',
  /** from and radius, then to; a radius of 0 ends the list. */
  'blocker0From',
  'blocker0To',
  'blocker1From',
  'blocker1To',
  'blocker2From',
  'blocker2To',
  'blocker3From',
  'blocker3To',
])
export const MAX_BLOCKERS = 4

export const OBJECT = layout([
  /**
   * kind (OBJECT_KINDS), F0 of the dielectric lobe, index of the source it belongs to or −1, 1 for an eye, 2 for skin, −2 for hair. Of a
   * lit face: F0 and eye are the reflectance and −roughness of its cloth.
   */
  'kind',
  /**
   * Centre and columns of its grid of bounce (negative: round, as on a ball); half edges with rows and first place. Of an
   * eye: its middle, its sight and its up, unit, with red, green and blue of its iris. Of another part of a sitter: pivot, at
   * and head of its carriage, with x, y and z of body.
   */
  'centre',
  'halfU',
  'halfV',
  /**
   * Of an eye: across the head, away from the nose, and its up, unit; how far the upper and the lower lid have turned up with it. Of a side
   * of the set on which a sheet stands, in patches: its line, the last patch of the lower side, 1 where it lies across columns, 1; from, to.
   */
  'across',
  'above',
  /** Of skin: colour of the hair that grows on it. Of an eye: what its lids throw back. */
  'hair',
  /** Of an eye: first place of its map of what it mirrors among those of bounce, and cells along a side; none: no bounce is known. */
  'eyeMap',
])

export const OCCLUDER = layout([
  /** Centre and radius of a sphere around it. */
  'bound',
  /** rectangle: centre; halfU/|halfU|² with its length; halfV likewise; unit normal. disc: centre, normal with radius.
   *  ball: centre with radius. cylinder: from with radius, to. cap: rim centre with radius, axis with depth.
   *  Last number of d: kind (OCCLUDER_KINDS). */
  'a',
  'b',
  'c',
  'd',
])

/** A lens of a pair of glasses, world: SpectacleLens of figure. */
export const LENS = layout([
  /** Middle of the front surface, and its curvature, 1/m. */
  'origin',
  /** With half the width and half the height, m, and 1 if coated. */
  'axisX',
  'axisY',
  'axisZ',
  /** Row of the eye behind it in the object table, whose map tells what of the set it mirrors. */
  'eye',
])
export const MAX_LENSES = 8

export const OBJECT_KINDS = { figure: 1, surface: 2, other: 3, emissive: 4 } as const
export const OCCLUDER_KINDS = { rectangle: 1, disc: 2, ball: 3, cylinder: 4, cap: 5 } as const

/** WebGL2 promises 16 textures to a fragment shader, and each source has a layer. */
export const MAX_SOURCES = 14
export const BATCH = 16
export const MAX_EMITTERS = 16
/** Tiles along one side of the shadow atlas. */
export const ATLAS_SIDE = 4
/** Source directions a virtual point may carry. */
export const MAX_GLOSSY = 16

/** Columns of a row of samples: all, with room for the directions of a virtual point. */
export const SAMPLE_STRIDE = SAMPLE.glossy + 2 * MAX_GLOSSY
/**
 * Over a mirror light goes two ways, and an atlas has room for both of so many points: their own maps, and as many rows on
 * those of the sitters as the mirror shows them.
 */
export const MIRRORED_ROW = BATCH / 2
/** Of points that need no shadow map: all before it. */
export const LIT_STRIDE = SAMPLE.clipX
/** Of virtual points that need none: their directions follow. */
export const PANEL_POINT_STRIDE = LIT_STRIDE + 2 * MAX_GLOSSY
/** In so many batches shadows are blurred by the patch of each point, and own dish and body are left to the evenness. */
export const EARLY_BATCHES = 4
/** Points that even out the light of a batch's sixteen at the vertices: so many times as many. */
export const EVEN_TIMES = 4
/** Points of an emitter whose light cannot reach the sitters, and the most of all emitters. */
export const OPEN_POINTS = 4
export const OPEN_ROWS = MAX_EMITTERS * OPEN_POINTS
export const EVEN_ROWS = (1 + EVEN_TIMES) * BATCH
/** Places at which a blurred shadow map is read; the first of them are asked for blockers before. */
export const TAPS = 8
const SEARCH_TAPS = 4
/** A uniform block holds 16 kB at least: five vec4 each. */
export const MAX_OCCLUDERS = 200

const constantName = (name: string) =>
  name
    .replace(/-/g, '_')
    .replace(/([a-z0-9])([A-Z])/g, '$1_$2')
    .toUpperCase()

const constants = (prefix: string, table: Readonly<Record<string, number>>) =>
  Object.entries(table).map(([name, value]) => `#define ${prefix}_${constantName(name)} ${value}`)

/** All tables as #defines: SAMPLE_POINT, IS_FIGURE, … */
export const LAYOUT_DEFINES: string = [
  ...constants('SAMPLE', SAMPLE),
  ...constants('EMITTER', EMITTER),
  ...constants('OBJECT', OBJECT),
  ...constants('OCCLUDER', OCCLUDER),
  ...constants('LENS', LENS),
  ...constants('IS', OBJECT_KINDS),
  ...constants('SHAPE', OCCLUDER_KINDS),
  `#define BATCH ${BATCH}`,
  `#define MIRRORED_ROW ${MIRRORED_ROW}`,
  `#define SAMPLE_STRIDE ${SAMPLE_STRIDE}`,
  `#define PANEL_POINT_STRIDE ${PANEL_POINT_STRIDE}`,
  `#define LIT_STRIDE ${LIT_STRIDE}`,
  `#define EVEN_ROWS ${EVEN_ROWS}`,
  `#define OPEN_ROWS ${OPEN_ROWS}`,
  `#define MAX_EMITTERS ${MAX_EMITTERS}`,
  `#define MAX_SOURCES ${MAX_SOURCES}`,
  `#define MAX_LENSES ${MAX_LENSES}`,
  `#define MAX_OCCLUDERS ${MAX_OCCLUDERS}`,
  `#define ATLAS_SIDE ${ATLAS_SIDE}`,
  `#define TAPS ${TAPS}`,
  `#define SEARCH_TAPS ${SEARCH_TAPS}`,
  `#define FACE_MAP ${FACE_MAP}`,
  `#define EYE_MAP_REACH ${EYE_MAP_REACH}`,
  `#define MAX_BLOCKERS ${MAX_BLOCKERS}`,
  '',
].join('\n')
