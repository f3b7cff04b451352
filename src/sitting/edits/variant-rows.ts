import { type Modifier, modifierKind } from '../../gear'

/** What may be varied in a row: everything else of the set stays as it is. */
export const VARIANT_ROWS = [
  'modifiers',
  'other modifiers',
  'modifiers, near',
  'sizes',
  'distances',
  'heights',
  'turns',
  'head turns',
  'skins',
  'finishes',
  'sources one by one',
] as const
export type VariantRow = (typeof VARIANT_ROWS)[number]

/** Rows of what the sitter does. */
export const SITTER_ROWS: readonly VariantRow[] = ['head turns', 'skins']
/** Rows of one panel. */
export const PANEL_ROWS: readonly VariantRow[] = ['finishes']
/** Rows of one source, what is tried most first. */
const SOURCE_ROWS: readonly VariantRow[] = [
  'distances',
  'modifiers',
  'sizes',
  'heights',
  'turns',
  'other modifiers',
  'modifiers, near',
]

/** What there is to vary of a source with this modifier: the sun has no distance, and what sits on the camera stays there. */
export function sourceRows(modifier: Modifier): readonly VariantRow[] {
  const { onCamera, remote } = modifierKind(modifier.kind)
  if (onCamera !== undefined) return ['modifiers', 'sizes']
  return remote ? ['heights', 'turns'] : SOURCE_ROWS
}
