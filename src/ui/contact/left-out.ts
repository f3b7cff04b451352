import { modifierName } from '../../gear'
import { isInFace, isTooNear, reachM, type Source, TAPES_M, usualModifiers, type VariantRow } from '../../sitting'
import { formatLength, type LengthUnits } from '../values'

/** What a row leaves out because the source's own lamp would stand in the face there, and what of the set as it stands does; null: nothing. */
export function leftOut(source: Source, row: VariantRow, tapeM: number, units: LengthUnits): string | null {
  const { letter, modifier } = source
  const length = (metres: number) => formatLength(metres, units)
  if (row === 'distances') {
    const out = TAPES_M.filter((metres) => isTooNear(modifier, metres)).map(length)
    return out.length === 0
      ? null
      : `Left out: ${out.join(', ')}. The lamp of ${modifierName(modifier)} stands ${length(reachM(modifier))} before it, so there it would be in the sitter’s face or less than 25 cm off it.`
  }
  if (row !== 'modifiers') return null
  const out = usualModifiers(modifier).filter((other) => isInFace(other, tapeM))
  const said =
    out.length === 0
      ? null
      : `Left out at ${length(tapeM)}: ${out.map(modifierName).join(', ')}. Their lamp stands before them and would be in the sitter’s face.`
  const now = isInFace(modifier, tapeM)
    ? `As it stands, the lamp of ${letter} is in the sitter’s face: move it farther off.`
    : null
  return [now, said].filter((words) => words !== null).join(' ') || null
}
