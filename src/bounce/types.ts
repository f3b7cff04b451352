import type { Rgb } from '../photometry'
import type { EyeName } from '../rig'
import type { Vec3 } from '../space'

/**
 * Where bounced light is kept. Patches: a grid on each side of each set surface, then of each ball and solid of gear.
 * Vertices: of the sitters' proxies.
 */
export interface Receivers {
  readonly grids: readonly PatchGrid[]
  readonly patchCount: number
  readonly figures: readonly FigureReceivers[]
  readonly vertexCount: number
  readonly eyes: EyeReceivers
}

/** What sitters' corneas mirror is kept in square maps, as rig's eyeMapWay spreads them: cells row by row from the lower left corner. */
export interface EyeReceivers {
  /** Along a side of a map. */
  readonly cells: number
  readonly maps: readonly { readonly figureId: string; readonly name: EyeName }[]
}

export interface PatchGrid {
  /** Of a surface or a ball; of gear rig's gearGridId. */
  readonly surfaceId: string
  readonly side: 'front' | 'back'
  /**
   * Along halfU and halfV; patch (column, row) is number first + row·columns + column, from the corner −U −V. On balls and
   * gear as rig's solidGrid says.
   */
  readonly columns: number
  readonly rows: number
  readonly first: number
  /** Of the room: where a sheet stands on it. Light of the one side says nothing of the other's. */
  readonly sheet?: SheetLine
}

/** All but across in patches, whole numbers at the patches' middles. */
export interface SheetLine {
  /** What is counted across the line. */
  readonly across: 'columns' | 'rows'
  readonly at: number
  /** The last column or row of the lower side. */
  readonly last: number
  /** How far the line goes, along the other axis. */
  readonly from: number
  readonly to: number
}

export interface FigureReceivers {
  readonly figureId: string
  /** One entry a part: receiver number = first + position of the vertex in vertexOf. */
  readonly parts: readonly { readonly name: string; readonly first: number; readonly vertexOf: Uint32Array }[]
}

/** Of one source at 1 cd·s axial intensity and its own colour: indirect irradiance, three bands a receiver, 1/m². */
export interface IndirectLight {
  readonly sourceId: string
  readonly patches: Float32Array
  readonly vertices: Float32Array
  /** Three a vertex, a vector in the surface: by how much of itself its light grows for a normal that leans so far. */
  readonly leans: Float32Array
  /** Of each cell of the eyes' maps, one map after another: the luminance of what shows there, three bands, 1/m². */
  readonly eyes: Float32Array
  /** Of metal panels only: their light is left out of `vertices` (not of `patches`) and is thrown by these points. */
  readonly points: readonly VirtualPoint[]
}

export interface VirtualPoint {
  readonly surfaceId: string
  readonly point: Vec3
  readonly normal: Vec3
  readonly areaM2: number
  /** What the room gives the metal, sent on as if matt: radiosity/π, per band, 1/m². */
  readonly diffuse: Rgb
  /** First reflection: directions to the light with the irradiance × F0 that each brings, per band. */
  readonly glossy: readonly { readonly incident: Vec3; readonly strength: Rgb }[]
  readonly alpha: number
}
