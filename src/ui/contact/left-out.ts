import { buildModifier, modifierKind, modifierName } from '../../gear'
import {
  beyondStops,
  isInFace,
  isTooNear,
  modifiersIn,
  type PlaceLandmarks,
  reachM,
  type Sitting,
  type Source,
  TAPES_M,
  type VariantRow,
} from '../../sitting'
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
  if (row !== 'modifiers' && row !== 'other modifiers') return null
  const out = modifiersIn(row, modifier).filter((other) => isInFace(other, tapeM))
  const said =
    out.length === 0
      ? null
      : `Left out at ${length(tapeM)}: ${out.map(modifierName).join(', ')}. Their lamp stands before them and would be in the sitter’s face.`
  const now = isInFace(modifier, tapeM)
    ? `As it stands, the lamp of ${letter} is in the sitter’s face: move it farther off.`
    : null
  return [now, said].filter((words) => words !== null).join(' ') || null
}

/** Why a source could not stand as a variant has it, in words; null: it could. By a hair it still can, metres. */
export function inTheWay(sitting: Sitting, id: string, marks: PlaceLandmarks): string | null {
  const source = sitting.sources.find((one) => one.id === id && one.on)
  // What sits on the camera or hangs in the sky has no stand.
  if (!source || modifierKind(source.modifier.kind).remote) return null
  const { shape, widthM, heightM } = buildModifier(source.modifier).litFace
  const half = (shape === 'disc' ? widthM : heightM) / 2
  const { ceiling, floor } = beyondStops(source, source.centreM, half, sitting, marks)
  const centimetres = (metres: number) => `${Math.round(100 * metres)} cm`
  if (ceiling > HAIR_M) return `Does not fit: its top is ${centimetres(ceiling)} above the ceiling.`
  if (floor > HAIR_M) return `Does not fit: its lower edge is ${centimetres(floor)} under the floor.`
  return null
}
const HAIR_M = 0.005
