import type { Reading } from '../readings'
import type { MeterRow, SheetInput } from './types'

const rowOf = ({ id, text, value, sourceId }: Reading, name: string, unit: MeterRow['unit']): MeterRow => ({
  id,
  name,
  plan: text,
  value: typeof value === 'number' ? value : null,
  unit,
  sourceId,
})

/** How sure the main reading is: ', ±0.7 stop guessed'. */
export function bandOf({ readings }: SheetInput): string {
  const band = readings.find(({ id }) => id === 'exposure.nearCheek.disc.light')?.band
  return band ? `, ±${band.plusMinus} ${band.unit} ${band.basis}` : ''
}

/** What to meter, in order: each source alone, all together, the document's own places, near against far. */
export function meterRows({ sitting, readings }: SheetInput): readonly MeterRow[] {
  const rows: MeterRow[] = []
  for (const reading of readings) {
    const { id } = reading
    const alone = id.match(/^source\.([A-Z])\.alone$/)
    const elsewhere = id.match(/^source\.([A-Z])\.at\.(\w+)$/)
    const place = sitting.meterPlaces.find((known) => id === `place.${known.id}`)
    if (alone) rows.push(rowOf(reading, `${alone[1]} alone, disc to ${alone[1]}`, 'f-number'))
    else if (elsewhere) rows.push(rowOf(reading, `${elsewhere[1]} alone, ${ELSEWHERE[elsewhere[2]]}`, 'f-number'))
    else if (id === 'exposure.nearCheek.disc.light')
      rows.push(rowOf(reading, 'all, near cheek, disc to key', 'f-number'))
    else if (id === 'exposure.nearCheek.dome.lens')
      rows.push(rowOf(reading, 'all, near cheek, dome to lens', 'f-number'))
    else if (place) rows.push(rowOf(reading, `${place.name}, ${facing(place)}`, 'f-number'))
    else if (id === 'ratio.nearFar' && typeof reading.value === 'number')
      rows.push(rowOf(reading, 'near to far cheek, stops', 'stop'))
  }
  return rows.sort((a, b) => (orderOf(a) < orderOf(b) ? -1 : orderOf(a) > orderOf(b) ? 1 : 0))
}

const ELSEWHERE: Readonly<Record<string, string>> = {
  farCheek: 'far cheek, disc on skin',
  chin: 'chin, dome to lens',
  hair: 'hair, disc to it',
}
/** One source after the other, each at all its places; then all together, in the order of the readings. */
const orderOf = ({ id, name }: MeterRow): string => (id.startsWith('source.') ? name.slice(0, 1) : '~')

function facing({ receptor, facing }: SheetInput['sitting']['meterPlaces'][number]): string {
  const to =
    facing === 'light'
      ? 'key'
      : facing === 'lens'
        ? 'lens'
        : facing === 'square'
          ? 'square off'
          : 'sourceId' in facing
            ? 'its source'
            : 'as aimed'
  return receptor === 'spot' ? 'spot' : `${receptor} to ${to}`.replace('to square', 'square')
}

const ROWS = ['upper', 'middle', 'lower']
const COLUMNS = ['left', 'middle', 'right']

/** Nine places of the backdrop in the frame, stops against the near cheek, from the upper left; what the frame does not show is blank. */
export function backdropRows({ readings }: SheetInput): readonly (readonly MeterRow[])[] | null {
  const middle = readings.find(({ id }) => id === 'backdrop.stops')
  if (!middle || typeof middle.value !== 'number') return null
  return ROWS.map((row) =>
    COLUMNS.map((column): MeterRow => {
      const isMiddle = row === 'middle' && column === 'middle'
      const found = isMiddle ? middle : readings.find(({ id }) => id === `backdrop.at.${row}.${column}`)
      const name = isMiddle ? 'backdrop middle' : `backdrop ${row} ${column}`
      return found
        ? rowOf(found, name, 'stop')
        : { id: `backdrop.at.${row}.${column}`, name, plan: '–', value: null, unit: 'stop', sourceId: null }
    }),
  )
}
