import type { LengthUnits } from './parse'

const minus = (text: string): string => text.replace('-', '−')

/** Fixed decimals with a true minus sign, and no minus on a rounded zero. */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  return minus(Number(text) === 0 ? text.replace('-', '') : text)
}

/** `1.00 m`; in feet `3′ 3″`, to the inch. */
export function formatLength(metres: number, units: LengthUnits, decimals = 2): string {
  if (units === 'metres') return `${fixed(metres, decimals)} m`
  const inches = Math.round(Math.abs(metres) / 0.0254)
  const sign = metres < 0 && inches > 0 ? '−' : ''
  return `${sign}${Math.floor(inches / 12)}′ ${inches % 12}″`
}

/** `0.62 m left`: a length whose two ways have names, the positive first. */
export function formatLengthTowards(metres: number, units: LengthUnits, ways: readonly [string, string]): string {
  const size = formatLength(Math.abs(metres), units)
  if (!/[1-9]/.test(size)) return size
  return `${size} ${metres > 0 ? ways[0] : ways[1]}`
}

/** `35°`; with words for the two ways, `45° right`. */
export function formatAngle(degrees: number, ways?: readonly [positive: string, negative: string]): string {
  const whole = Math.round(degrees)
  if (!ways) return `${fixed(whole, 0)}°`
  if (whole === 0) return '0°'
  return `${Math.abs(whole)}° ${whole > 0 ? ways[0] : ways[1]}`
}

export const formatFNumber = (n: number): string => `f/${n < 10 && n % 1 !== 0 ? n.toFixed(1) : Math.round(n)}`

export const formatStops = (stops: number): string =>
  `${stops > 0.049 ? '+' : ''}${fixed(stops, 1)} ${Math.abs(stops) === 1 ? 'stop' : 'stops'}`

export const formatShutter = (seconds: number): string =>
  seconds < 0.4 ? `1/${Math.round(1 / seconds)} s` : `${Number(seconds.toFixed(1))} s`

export const formatFraction = (fraction: number): string => `${fixed(fraction * 100, 0)} %`
