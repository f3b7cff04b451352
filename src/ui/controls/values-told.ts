import type { PlaceLandmarks, Sitting } from '../../sitting'
import type { LengthUnits } from '../values'
import type { NumberRow, Row } from './model'
import { sheetOf } from './sheet'

/**
 * What a step did to the numbers of a thing, as its controls write them: 'A tape: 1.00 m to 0.60 m, and 2 more numbers'. Of several it names
 * the one that went the most steps of an arrow key. null: none of them reads otherwise.
 */
export function valuesTold(
  before: Sitting,
  after: Sitting,
  id: string,
  marks: PlaceLandmarks | null,
  units: LengthUnits,
): string | null {
  const is = sheetOf({ sitting: after, marks, exposure: null }, id)
  if (!is) return null
  const old = numbersBefore(before, id, marks)
  const changed = numbersOf(is.groups.flatMap(({ rows }) => rows))
    .flatMap((row) => {
      const from = old.get(row.id)
      const told = from && changeTold(from, row.value, units)
      return told ? [{ told, steps: Math.abs(row.value - from.value) / row.quantity.step }] : []
    })
    .sort((a, b) => b.steps - a.steps)
  const [first, ...more] = changed
  if (!first) return null
  const others = more.length === 0 ? '' : `, and ${more.length} more ${more.length === 1 ? 'number' : 'numbers'}`
  return `${is.title} ${first.told}${others}`
}

type Numbers = ReadonlyMap<string, NumberRow>
/** Of the set before, which stays the same through all of a drag: put together once. */
let known: { readonly before: Sitting; readonly id: string; readonly numbers: Numbers } | null = null

function numbersBefore(before: Sitting, id: string, marks: PlaceLandmarks | null): Numbers {
  if (known?.before !== before || known.id !== id) {
    const rows = sheetOf({ sitting: before, marks, exposure: null }, id)?.groups.flatMap((group) => group.rows) ?? []
    known = { before, id, numbers: new Map(numbersOf(rows).map((row) => [row.id, row])) }
  }
  return known.numbers
}

/** 'tape: 1.00 m to 0.60 m'; null: it reads as before. */
export function changeTold({ label, quantity, value }: NumberRow, to: number, units: LengthUnits): string | null {
  const [from, now] = [value, to].map((each) => quantity.format(each, units))
  return from === now ? null : `${label}: ${from} to ${now}`
}

const numbersOf = (rows: readonly Row[]): readonly NumberRow[] =>
  rows.flatMap((row) => (row.kind === 'number' ? [row] : row.kind === 'fold' ? numbersOf(row.rows) : []))
