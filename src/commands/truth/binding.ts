import * as camera from '../../camera'
import { CORNEA_CENTRE_MM, CORNEA_RADIUS_MM, irisBehind } from '../../figure'
import * as photometry from '../../photometry'
import { axialIntensity } from '../../rig'
import type { Inputs } from './inputs'

/** What a binding may call: public exports; of a law or figure that the page runs, the very one. */
export const source = { ...photometry, ...camera, axialIntensity, CORNEA_CENTRE_MM, CORNEA_RADIUS_MM, irisBehind }
export type Source = typeof source

/** Greatest |got − expected|: absolute, or relative to |expected|. */
export type Tolerance = { readonly absolute: number } | { readonly relative: number }

export interface Binding {
  /** form: a law is evaluated. table: published numbers that src/ holds and uses are compared with the record. */
  readonly kind: 'form' | 'table'
  /**
   * The record's inputs through src/, in the shape of its `expected`. Maps and converts units; computes no law itself.
   * `expected` is handed in for the two records that keep given figures there beside those that follow from them.
   */
  readonly got: (source: Source, inputs: Inputs, expected: unknown) => unknown
  /** Where the record's words give no number, or are looser than what the formula holds. */
  readonly within?: Tolerance
  /** Judges in place of equality: for bounds and orders of magnitude. Returns true where it holds. */
  readonly holds?: (got: unknown, expected: unknown) => boolean
  readonly note?: string
}

export type Bindings = Readonly<Record<string, Binding>>

type Got = Binding['got']
type Options = Omit<Binding, 'kind' | 'got'>

export const form = (got: Got, options: Options = {}): Binding => ({ kind: 'form', got, ...options })
export const table = (got: Got, options: Options = {}): Binding => ({ kind: 'table', got, ...options })

/** One binding under ids that end in 1 … n. */
export const numbered = (stem: string, count: number, binding: Binding): Bindings =>
  Object.fromEntries(Array.from({ length: count }, (_, i) => [`${stem}${i + 1}`, binding]))
