import type { WebGLRenderer } from 'three'

export interface PictureOptions {
  /** A canvas of its own, or three's renderer of another view. */
  readonly canvas?: HTMLCanvasElement | OffscreenCanvas
  readonly renderer?: WebGLRenderer
  readonly width: number
  readonly height: number
  readonly seed?: number
  /** Samples with which a source is finished. */
  readonly target?: number
  /** Texels along a shadow map. */
  readonly tileSize?: number
  /** false: always through the pixel's middle, to be compared with rays. */
  readonly antialias?: boolean
  /** true: a step never stands still for long, but ends and is asked again in a later turn of the page. */
  readonly patient?: boolean
  /** Of many sources drawn as one all points of metal panels are summed. Left out: where a graphics card draws. */
  readonly sumsPanels?: boolean
}

export interface Progress {
  readonly samples: ReadonlyMap<string, number>
  readonly target: number
  /** Only for a moving hand: catchUp begins it anew. */
  readonly isStale: boolean
  readonly done: boolean
}
