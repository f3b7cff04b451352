import type { Vec3 } from '../space'
import type { Band, Reading } from './types'

/** A record from its parts; what is left out is null. */
export interface ReadingParts {
  readonly id: string
  readonly value: Reading['value']
  readonly unit: string
  readonly text: string
  readonly band?: Band | null
  readonly place: { readonly name: string; readonly at: Vec3 | null }
  readonly sentence: string
  readonly why: Reading['why']
  readonly sourceId?: string | null
  readonly also?: Reading['also']
  readonly code?: Reading['code']
  readonly roomM2?: Reading['roomM2']
  readonly hidden?: Reading['hidden']
  readonly edgeMm?: Reading['edgeMm']
  readonly edgeDeg?: Reading['edgeDeg']
}

export function reading({ band = null, sourceId = null, ...parts }: ReadingParts): Reading {
  const { value } = parts
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new Error(`readings.reading: ${parts.id} is ${value}: ${parts.why.filled}`)
  return { ...parts, band, sourceId }
}

/** Where the quantity does not exist in this set: the sentence says why. */
export const absent = (
  parts: Omit<ReadingParts, 'value' | 'text' | 'why' | 'unit'> & { readonly formula: string; readonly source: string },
): Reading => {
  const { formula, source, ...rest } = parts
  return reading({ ...rest, value: null, unit: '', text: '–', why: { formula, filled: '', source } })
}

export const GEOMETRY = 'geometry'
export const PRACTICE = 'common practice, no source'
export const ISO_2720 = 'ISO 2720:1974, C = 250 lx·s for both receptors'
