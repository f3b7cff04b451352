/** What a typed value became: a number in the quantity's own unit, or one sentence that says what to type instead. */
export type Parsed = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string }

export type LengthUnits = 'metres' | 'feet'

const UNSIGNED = String.raw`(?:\d+(?:[.,]\d*)?|[.,]\d+)`
const NUMBER = `[+-]?${UNSIGNED}`
const METRES_PER: Readonly<Record<string, number>> = {
  mm: 0.001,
  cm: 0.01,
  m: 1,
  ft: 0.3048,
  "'": 0.3048,
  in: 0.0254,
  '"': 0.0254,
}

const ok = (value: number): Parsed => ({ ok: true, value })
/** What was expected and what was typed. */
export const refuse = (expected: string, got: string): Parsed => ({
  ok: false,
  message: `expected ${expected}, got ${got.trim() === '' ? 'nothing' : `“${got.trim()}”`}`,
})

/** One spelling for minus, prime, double prime, degree and fraction signs; lower case. */
export function normalise(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[−–—]/g, '-')
    .replace(/[′’]/g, "'")
    .replace(/[″”“]/g, '"')
    .replace(/⁄/g, '/')
}

const toNumber = (text: string): number => Number(text.replace(',', '.'))

function match(text: string, pattern: string): RegExpMatchArray | null {
  return normalise(text).match(new RegExp(`^(?:${pattern})$`))
}

/** Metres from `1.2 m`, `120cm`, `4ft`, `4' 6"`, `4 ft 6 in`; a bare number counts in the units shown on the page. */
export function parseLength(text: string, units: LengthUnits): Parsed {
  const feetAndInches = match(text, `([+-]?)(\\d+)\\s*(?:ft|')\\s*(${UNSIGNED})\\s*(?:in|")?`)
  if (feetAndInches) {
    const size = Number(feetAndInches[2]) * METRES_PER.ft! + toNumber(feetAndInches[3]!) * METRES_PER.in!
    return ok(feetAndInches[1] === '-' ? -size : size)
  }
  const single = match(text, `(${NUMBER})\\s*(mm|cm|m|ft|'|in|")?`)
  if (!single) return refuse('a length such as 1.2 m, 120 cm or 4 ft 3 in', text)
  const unit = single[2] ?? (units === 'metres' ? 'm' : 'ft')
  return ok(toNumber(single[1]!) * METRES_PER[unit]!)
}

/** As parseLength, with a word for the way: `0.6 m left` is −0.6; the positive way comes first. */
export function parseLengthTowards(text: string, units: LengthUnits, ways: readonly [string, string]): Parsed {
  const [, size, way] = normalise(text).match(new RegExp(`^(.*?)\\s*(${ways[0]}|${ways[1]})$`)) ?? [null, text, null]
  const parsed = parseLength(size!, units)
  return parsed.ok && way === ways[1] ? ok(-parsed.value) : parsed
}

/** Degrees from `35`, `35°`, `35deg`; with words for the two ways, `20 left` is −20. */
export function parseAngle(text: string, ways?: readonly [positive: string, negative: string]): Parsed {
  const words = ways ? `(?:\\s*(${ways[0]}|${ways[1]}))?` : '()'
  const found = match(text, `(${NUMBER})\\s*(?:°|deg|degrees)?${words}`)
  const example = ways ? `an angle such as 45° ${ways[0]} or 20deg ${ways[1]}` : 'an angle such as 35° or 35deg'
  if (!found) return refuse(example, text)
  const size = toNumber(found[1]!)
  return ok(ways && found[2] === ways[1] ? -size : size)
}

/** f-number from `8`, `f/8`, `f8`, and with tenths of a stop as meters show it: `f/8 + 0.3`. */
export function parseFNumber(text: string): Parsed {
  const found = match(text, `(?:f\\s*/?\\s*)?(${NUMBER})(?:\\s*([+-])\\s*(\\d*[.,]?\\d+))?`)
  const value = found ? toNumber(found[1]!) : Number.NaN
  if (!found || !(value > 0)) return refuse('an f-number such as f/8', text)
  const stops = found[3] ? toNumber(found[3]) * (found[2] === '-' ? -1 : 1) : 0
  return ok(value * 2 ** (stops / 2))
}

/** Stops from `-1`, `−1 stop`, `+0.3 stops`; with `asPower` also the dial's `full`, `1/8` and `1/8 - 0.1`. */
export function parseStops(text: string, asPower = false): Parsed {
  const plain = match(text, `(${NUMBER})\\s*(?:stops?)?`)
  if (plain) return ok(toNumber(plain[1]!))
  const dial = asPower
    ? match(text, `(full|1/(\\d+(?:[.,]\\d+)?))(?:\\s*([+-])\\s*(\\d*[.,]?\\d+))?\\s*(?:stops?)?`)
    : null
  const part = dial?.[2] ? toNumber(dial[2]) : 1
  if (dial && part > 0) {
    const extra = dial[4] ? toNumber(dial[4]) * (dial[3] === '-' ? -1 : 1) : 0
    return ok(extra - Math.log2(part))
  }
  return refuse(asPower ? 'a power such as 1/8, full, or −1 stop' : 'stops such as −1 or +0.3 stop', text)
}

/** Seconds from `1/160`, `1/160 s`, `0.5 s`. */
export function parseShutter(text: string): Parsed {
  const found = match(text, `(?:(1)\\s*/\\s*(\\d+(?:[.,]\\d+)?)|(\\d+(?:[.,]\\d+)?))\\s*(?:s|sec)?`)
  const value = found ? (found[3] ? toNumber(found[3]) : 1 / toNumber(found[2]!)) : Number.NaN
  return Number.isFinite(value) && value > 0 ? ok(value) : refuse('a time such as 1/160 or 0.5 s', text)
}

/** A fraction from `60 %` or `60`: where percent is shown, a bare number is percent, 0.6 too. */
export function parseFraction(text: string): Parsed {
  const found = match(text, `(${NUMBER})\\s*(?:%|percent)?`)
  return found ? ok(toNumber(found[1]!) / 100) : refuse('a share such as 60 %', text)
}

/** A number that may carry its unit: `105`, `105 mm`, `ISO 100`, `200 J`, `5500K`. */
export function parseWithUnit(text: string, units: readonly string[], expected: string): Parsed {
  const any = units.map((unit) => unit.toLowerCase()).join('|')
  const found = match(text, `(?:(?:${any})\\s*)?(${NUMBER})\\s*(?:${any})?`)
  return found ? ok(toNumber(found[1]!)) : refuse(expected, text)
}
