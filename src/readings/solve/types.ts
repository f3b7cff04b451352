import type { RigBodies } from '../../meter'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import type { RayCaster, Vec3 } from '../../space'
import type { IndirectStore } from '../light-table'

/** What is asked for. Stops: of light; f-numbers at the near cheek, disc to the light, everything on. */
export type Goal =
  | { readonly kind: 'f-number'; readonly fNumber: number }
  /** By moving one source along its line, powers as they are. */
  | { readonly kind: 'f-number by distance'; readonly fNumber: number; readonly sourceId: string }
  /** Fill under key, each alone at the near cheek: key : fill = 2^stops. */
  | { readonly kind: 'fill under key'; readonly stops: number }
  /** (key + fill) : fill. */
  | { readonly kind: 'highlight over shadow'; readonly ratio: number }
  /** From the near to the far cheek, disc on the skin, everything on. */
  | { readonly kind: 'far cheek under near'; readonly stops: number }
  | { readonly kind: 'backdrop over face'; readonly stops: number }
  /** The backdrop's own paper recorded as so much. */
  | { readonly kind: 'backdrop tone'; readonly tone: keyof typeof TONES }
  | { readonly kind: 'backdrop tone by distance'; readonly tone: keyof typeof TONES }
  /** The hair light alone at the crown, disc to it, against the main reading. */
  | { readonly kind: 'hair light'; readonly stops: number }

/**
 * Picture values (1 = perfect white in metered light) that count as white, mid-grey and black. White: 88 % paper at +0.5, in the
 * middle of +0.3 to +0.7; black: 5 stops under white paper at the face's reading: common practice, no source.
 */
export const TONES = { white: 0.88 * 2 ** 0.5, 'mid-grey': 0.18, black: 0.88 / 2 ** 5 } as const

/** One edit of the answer, as plain data. */
export type SolveEdit =
  | { readonly kind: 'power'; readonly sourceId: string; readonly powerStops: number }
  | { readonly kind: 'nd'; readonly sourceId: string; readonly ndStops: number }
  | { readonly kind: 'move'; readonly sourceId: string; readonly centreM: Vec3 }
  | { readonly kind: 'camera'; readonly fNumber?: number; readonly iso?: number }
  | { readonly kind: 'backdrop'; readonly distanceM: number }

/** Edits that belong together, and what they give. */
export interface Way {
  readonly words: string
  readonly edits: readonly SolveEdit[]
  /** The quantity of the goal after the edits, in its own terms: an f-number, stops or a ratio. */
  readonly promised: number
}

export interface Answer {
  /** The edits that were asked for; null: it can't be had so, and `sentence` says why. */
  readonly way: Way | null
  readonly sentence: string
  /** Power of each source: 'A 1/8 − 0.1, 47 J'. */
  readonly powers: readonly string[]
  /** Other ways to the same goal. */
  readonly others: readonly Way[]
}

/** What the solver looks at; `again` is asked where a thing has to be moved. */
export interface SolveInput {
  readonly sitting: Sitting
  readonly scene: SolveScene
  again(sitting: Sitting): SolveScene
  /** Paths for bounced light at each place; 0: only what the store holds. */
  readonly paths?: number
  readonly indirect?: IndirectStore
}

export interface SolveScene {
  readonly rig: Rig
  readonly bodies: RigBodies
  readonly caster: RayCaster
}
