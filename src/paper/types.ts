import type { DrawnUnits } from './words'

/**
 * A drawing to scale, before it becomes SVG or PDF. The plane: metres, x to the right, y DOWN (as on a page).
 * Plan: x = world x (camera right), y = world z (camera at the bottom). Elevation: x = metres along `alongX/Z` from the
 * sitter's axis, y = −height above the floor.
 */
export type Point2 = readonly [number, number]

export interface Bounds {
  readonly minX: number
  readonly minY: number
  readonly maxX: number
  readonly maxY: number
}

/** Line weights of a draughtsman; the page maps them to pixels, the sheet to millimetres. */
export type Weight = 'cut' | 'object' | 'thin' | 'dimension'
export type Dash = 'solid' | 'hidden' | 'axis'

export type Shape =
  | {
      readonly kind: 'line'
      readonly points: readonly Point2[]
      readonly closed: boolean
      readonly weight: Weight
      readonly dash: Dash
      /** Drawn with the pencil accent: belongs to the selected thing. */
      readonly pencil: boolean
      /** sheet: hides what lies under it; tint: the penumbra. */
      readonly fill: 'none' | 'sheet' | 'tint'
    }
  | {
      readonly kind: 'circle'
      readonly centre: Point2
      readonly radiusM: number
      readonly weight: Weight
      readonly dash: Dash
      readonly pencil: boolean
      readonly fill: 'none' | 'sheet' | 'tint'
    }
  | {
      readonly kind: 'text'
      readonly at: Point2
      readonly text: string
      readonly anchor: 'start' | 'middle' | 'end'
      /** Clockwise on the page, degrees; always readable from below or from the right. */
      readonly angleDeg: number
      readonly size: 'label' | 'letter'
      readonly tone: 'ink' | 'ink2' | 'pencil'
      /** How the words stand to their point, whatever the scale: on it, clear over it, or hanging clear under it. */
      readonly stands: 'on' | 'over' | 'under'
      /** What is written instead where the page is narrow or the words would run into others; null: the same. */
      readonly short: string | null
      /** What is written on a pane so narrow that even that would leave the drawing no room; left out: the short form. */
      readonly least?: string
      /** The line that the words may slide along, to either side of it; left out: they keep their place. */
      readonly along?: readonly [Point2, Point2]
      /** Said elsewhere too: may be left out where there is no clear place for it. */
      readonly spare?: boolean
    }
  /**
   * A figure inside a circular window: what is enlarged beside the drawing, and the line from its place to the window.
   * Shapes are in the window's own plane metres.
   */
  | {
      readonly kind: 'window'
      readonly from: Point2
      readonly centre: Point2
      readonly radiusM: number
      /** Metres of its own plane from the middle to the rim: radiusM / spanM is the enlargement. */
      readonly spanM: number
      /** The point of its own plane that sits in the middle. */
      readonly about: Point2
      readonly shapes: readonly Shape[]
    }

export type Target =
  | { readonly type: 'source'; readonly id: string }
  | { readonly type: 'aim'; readonly id: string }
  | { readonly type: 'panel'; readonly id: string }
  | { readonly type: 'object'; readonly id: string }
  | { readonly type: 'sitter'; readonly id: string }
  | { readonly type: 'nose'; readonly id: string }
  | { readonly type: 'meter'; readonly id: string }
  | { readonly type: 'camera' }
  | { readonly type: 'backdrop' }

/** A place to grab. name: for a screen reader, 'source A, key'. */
export interface Handle {
  readonly target: Target
  readonly at: Point2
  readonly name: string
  /** Radius within which it is grabbed, metres of the drawing. */
  readonly reachM: number
}

export interface Drawing {
  readonly bounds: Bounds
  readonly shapes: readonly Shape[]
  readonly handles: readonly Handle[]
  /** 'square to A', 'from camera left'. */
  readonly caption: string
  /** One sentence that tells a screen reader what is drawn. */
  readonly description: string
}

/** What both drawings need. Lengths on labels in metres or feet and inches. */
export interface DrawingInput {
  readonly sitting: import('../sitting').Sitting
  readonly rig: import('../rig').Rig
  /** Id of the selected thing, null: none. */
  readonly selected: string | null
  readonly units: DrawnUnits
  /** So much of a wide backdrop finds room, metres; left out: 2.8. */
  readonly backdropShownM?: number | undefined
  /** What the camera is set to where its f-number gives way to the light; left out: the document's. */
  readonly fNumber?: number | undefined
}

/** The elevation's horizontal axis in the world (unit x, z), so that a drag can be turned back into a place. */
export interface Elevation extends Drawing {
  readonly alongX: number
  readonly alongZ: number
  /** Where the enlarged edge lies on this drawing, so that the window can stand here instead; null: no source in hand. */
  readonly edgeAt: Point2 | null
}
