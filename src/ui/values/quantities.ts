import { dialFraction } from '../../readings'
import type { Head } from '../../sitting'
import {
  fixed,
  formatAngle,
  formatFNumber,
  formatFraction,
  formatLength,
  formatLengthTowards,
  formatShutter,
} from './format'
import {
  type LengthUnits,
  type Parsed,
  parseAngle,
  parseFNumber,
  parseFraction,
  parseLength,
  parseLengthTowards,
  parseShutter,
  parseStops,
  parseWithUnit,
  refuse,
} from './parse'

/** How one kind of number is typed and shown. Steps are what one arrow key does; Shift makes it ten. */
export interface Quantity {
  parse(text: string, units: LengthUnits): Parsed
  format(value: number, units: LengthUnits): string
  readonly step: number
  /** The words of its two ways, the positive first; left out: it has no sides. */
  readonly ways?: readonly [positive: string, negative: string]
}

/** 5 cm a key: what a hand on a stand does. */
export const length: Quantity = { parse: parseLength, format: formatLength, step: 0.05 }
/** Small things: 1 cm a key. */
export const smallLength: Quantity = { ...length, step: 0.01 }
/** A length whose two ways have names, the positive first: right and left of the lens axis. */
export const lengthTowards = (positive: string, negative: string): Quantity => ({
  ...length,
  ways: [positive, negative],
  parse: (text, units) => parseLengthTowards(text, units, [positive, negative]),
  format: (value, units) => formatLengthTowards(value, units, [positive, negative]),
})
export const angle: Quantity = { parse: (text) => parseAngle(text), format: (value) => formatAngle(value), step: 1 }

/** An angle whose two ways have names, the positive first: right and left, up and down. */
export const angleTowards = (positive: string, negative: string): Quantity => ({
  ways: [positive, negative],
  parse: (text) => parseAngle(text, [positive, negative]),
  format: (value) => formatAngle(value, [positive, negative]),
  step: 1,
})

export const power: Quantity = { parse: (text) => parseStops(text, true), format: dialFraction, step: 0.1 }
/** The power of a head as its own dial has it: fractions, a number a stop, or joules. What has a fraction or the word stop in it is understood by every dial. */
export function powerOf({
  dialStyle,
  dialTop = 10,
  energyJ,
}: Pick<Head, 'dialStyle' | 'dialTop' | 'energyJ'>): Quantity {
  if (dialStyle !== 'numbers' && dialStyle !== 'joules') return power
  const ofDial = (value: number) => (dialStyle === 'numbers' ? value - dialTop : Math.log2(value / energyJ))
  return {
    step: 0.1,
    format: (stops) =>
      dialStyle === 'numbers' ? fixed(dialTop + stops, 1) : `${Number((energyJ * 2 ** stops).toPrecision(3))} J`,
    parse: (text) => {
      const typed = parseWithUnit(text, dialStyle === 'joules' ? ['j', 'ws'] : [], '')
      if (!typed.ok) return parseStops(text, true)
      // Six stops under a dial of 6 it says 0, and further down less than that; no flash has 0 J.
      if (dialStyle === 'joules' && !(typed.value > 0))
        return refuse('an energy over 0 J, or a fraction such as 1/4', text)
      return { ok: true, value: ofDial(typed.value) }
    },
  }
}
export const fNumber: Quantity = { parse: parseFNumber, format: formatFNumber, step: 0.1 }
export const shutter: Quantity = { parse: parseShutter, format: formatShutter, step: 0.001 }
export const fraction: Quantity = { parse: parseFraction, format: formatFraction, step: 0.01 }

const withUnit = (unit: string, spellings: readonly string[], expected: string, step: number): Quantity => ({
  parse: (text) => parseWithUnit(text, spellings, expected),
  format: (value) => `${fixed(value, 0)} ${unit}`,
  step,
})

export const focalLength = withUnit('mm', ['mm'], 'a focal length such as 105 mm', 1)
export const energy = withUnit('J', ['j', 'ws'], 'an energy such as 200 J', 10)
export const colourTemperature = withUnit('K', ['k'], 'a colour temperature such as 5500 K', 100)
/** Of a curve; to a quarter. */
export const dioptres: Quantity = {
  ...withUnit('D', ['d', 'dpt'], 'a curve such as 4 D', 0.25),
  format: (value) => `${Number(value.toFixed(2))} D`,
}
export const iso: Quantity = {
  ...withUnit('', ['iso'], 'a sensitivity such as ISO 100', 10),
  format: (value) => `ISO ${fixed(value, 0)}`,
}
/** A flash duration: '1/800' or '1.25 ms'. */
export const duration: Quantity = {
  step: 0.0001,
  format: (seconds) => `1/${fixed(1 / seconds, 0)} s`,
  parse: (text) => {
    const milliseconds = /^\s*([\d.,]+)\s*ms\s*$/.exec(text)
    return milliseconds ? { ok: true, value: Number(milliseconds[1]!.replace(',', '.')) / 1000 } : parseShutter(text)
  },
}
/** A field of a gear kind that is no length: shown with the unit of its own table. */
export const plain = (unit: string, step: number): Quantity => ({
  parse: (text) => parseWithUnit(text, unit === '' ? ['x'] : [unit], `a number${unit ? ` in ${unit}` : ''}`),
  format: (value) =>
    `${Number(value.toFixed(step < 0.1 ? 2 : step < 1 ? 1 : 0))}${unit ? ` ${unit}` : ''}`.replace('-', '−'),
  step,
})
export { fixed }

/** Typed with a sign or with a word for the way, in one of the spellings of minus. */
const saysWay = (text: string, ways: readonly string[]): boolean =>
  /^\s*[-+−–—]/.test(text) || ways.some((way) => text.trim().toLowerCase().endsWith(way))

/** A size alone stays on the side where the value is now: 32 typed over 43° left is 32° left. */
function parseOnSide(quantity: Quantity, text: string, units: LengthUnits, now: number): Parsed {
  const parsed = quantity.parse(text, units)
  if (!parsed.ok || !quantity.ways || !(now < 0) || saysWay(text, quantity.ways)) return parsed
  return { ok: true, value: 0 - parsed.value }
}

/**
 * The value if it lies in the range; else a sentence with what was expected and what was typed. Never a silent clamp. now: the value that
 * stands there, whose side a size without one keeps.
 */
export function parseWithin(
  quantity: Quantity,
  text: string,
  range: readonly [number, number],
  units: LengthUnits,
  now = 0,
): Parsed {
  const parsed = parseOnSide(quantity, text, units, now)
  if (!parsed.ok) return parsed
  const slack = 1e-9
  if (parsed.value >= range[0] - slack && parsed.value <= range[1] + slack) return parsed
  const [low, high] = range.map((end) => quantity.format(end, units))
  return { ok: false, message: `expected ${low} to ${high}, got ${quantity.format(parsed.value, units)}` }
}
