import type { Measured, SetUpSheet, SheetInput } from '../../sheet'
import { type LengthUnits, parseFNumber, parseLength, quantities } from '../values'
import type { Day } from './day-store'

export type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string }

const isLength = (name: string): boolean => /^(tape|distance|height)\./.test(name)

/** What stands in a box: as it was typed; a bare length says its unit once the page counts in another one. */
export function typedAt({ typed, typedIn }: Pick<Day, 'typed' | 'typedIn'>, name: string, units: LengthUnits): string {
  const [text = '', was = units] = [typed[name], typedIn?.[name]]
  return was !== units && isLength(name) && /^[\s\d.,]+$/.test(text) ? `${text.trim()} ${UNIT[was]}` : text
}
const UNIT = { metres: 'm', feet: 'ft' } as const

/** How what is typed under a name is read. Null: nothing is typed. */
export function readTyped(name: string, text: string, input: SheetInput, units: LengthUnits): Read | null {
  if (text.trim() === '') return null
  const [kind, id] = [name.slice(0, name.indexOf('.')), name.slice(name.indexOf('.') + 1)]
  if (kind === 'meter') return id === 'ratio.nearFar' || id.startsWith('backdrop') ? stops(text) : parseFNumber(text)
  if (kind === 'dial')
    return quantities.powerOf(input.sitting.sources.find((source) => source.id === id)!.head).parse(text, units)
  return parseLength(text, units)
}

function stops(text: string): Read {
  const value = Number(text.trim().replace(/[−–]/, '-').replace(',', '.'))
  return Number.isFinite(value)
    ? { ok: true, value }
    : { ok: false, message: `expected stops such as −1.8, got “${text}”` }
}

/** All that was typed and can be read. */
export function measuredOf(day: Day, sheet: SetUpSheet, input: SheetInput, units: LengthUnits): Measured {
  const read = (name: string) => {
    const found = readTyped(name, typedAt(day, name, units), input, units)
    return found?.ok ? found.value : undefined
  }
  const all = (kind: string, ids: readonly string[]) =>
    Object.fromEntries(
      ids.flatMap((id) => {
        const value = read(`${kind}.${id}`)
        return value === undefined ? [] : [[id, value] as const]
      }),
    )
  const sources = input.sitting.sources.map(({ id }) => id)
  return {
    tapes: Object.fromEntries(
      sheet.tape.map(({ id }) => [id, { fromXM: read(`tape.${id}.x`), fromZM: read(`tape.${id}.z`) }]),
    ),
    distances: all('distance', sources),
    heights: all('height', sources),
    dials: all('dial', sources),
    meters: all(
      'meter',
      [...sheet.meters, ...(sheet.backdrop ?? []).flat()].map(({ id }) => id),
    ),
  }
}

/** What was read on the meter, for the note of the sitting as built. */
export function meterWords(day: Day, sheet: SetUpSheet): string {
  const read = sheet.meters.flatMap(({ id, name, plan }) => {
    const text = day.typed[`meter.${id}`]?.trim()
    return text ? [`${name}: ${text} (planned ${plan})`] : []
  })
  return read.length > 0 ? `Read: ${read.join('; ')}.` : ''
}
