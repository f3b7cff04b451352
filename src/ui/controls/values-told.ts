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
  const [was, is] = [before, after].map((sitting) => sheetOf({ sitting, marks, exposure: null }, id))
  if (!was || !is) return null
  const old = new Map(numbersOf(was.groups.flatMap(({ rows }) => rows)).map((row) => [row.id, row]))
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

/** 'tape: 1.00 m to 0.60 m'; null: it reads as before. */
export function changeTold({ label, quantity, value }: NumberRow, to: number, units: LengthUnits): string | null {
  const [from, now] = [value, to].map((each) => quantity.format(each, units))
  return from === now ? null : `${label}: ${from} to ${now}`
}

const numbersOf = (rows: readonly Row[]): readonly NumberRow[] =>
  rows.flatMap((row) => (row.kind === 'number' ? [row] : row.kind === 'fold' ? numbersOf(row.rows) : []))
