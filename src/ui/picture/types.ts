import type { IndirectLight, Receivers } from '../../bounce'

export interface Indirect {
  readonly lights: readonly IndirectLight[]
  readonly receivers: Receivers
}

export interface Size {
  readonly width: number
  readonly height: number
}

export interface Surfaces {
  /** The renderer's own. */
  readonly canvas: HTMLCanvasElement
  /** Under it: holds the last whole picture while the renderer's canvas changes its pixels. */
  readonly under: HTMLCanvasElement
}
