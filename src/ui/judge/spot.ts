import { create } from 'zustand'
import { cellAt, type Plate, type Spot, spotOf } from '../../camera'
import type { Stops } from '../../photometry'
import type { ShownPlate } from '../picture/protocol'
import { fixed } from '../values/format'

/** Where the spot meter points: shares of the picture from its upper left corner. */
export interface SpotPlace {
  readonly x: number
  readonly y: number
}

/** told: a key moved it there, and a screen reader says what it reads. */
export const useSpot = create<SpotPlace & { readonly told: boolean }>(() => ({ x: 0.5, y: 0.4, told: false }))

const inside = (share: number): number => Math.min(1, Math.max(0, share))
export const putSpot = ({ x, y }: SpotPlace, told: boolean): void =>
  useSpot.setState({ x: inside(x), y: inside(y), told })

const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/** The place after an arrow key: a cell on, with Shift ten; null: another key. It stays in the picture. */
export function stepSpot(
  { x, y }: SpotPlace,
  key: string,
  shift: boolean,
  { columns, rows }: Pick<Plate, 'columns' | 'rows'>,
): SpotPlace | null {
  const way = STEPS[key]
  if (!way) return null
  const cells = shift ? 10 : 1
  return { x: inside(x + (way[0] * cells) / columns), y: inside(y + (way[1] * cells) / rows) }
}

export function spotAt(plate: ShownPlate, { x, y }: SpotPlace): Spot {
  const cell = 3 * cellAt(plate, x, y)
  const [r, g, b] = plate.linear.subarray(cell, cell + 3)
  return spotOf([r, g, b], plate.scale)
}

/** `+0.4`; where no light is, that. */
export const spotStops = (stops: Stops): string =>
  Number.isFinite(stops) ? `${stops > 0.049 ? '+' : ''}${fixed(stops, 1)}` : 'no light'

const three = (value: number): string =>
  value === 0 ? '0' : value < 100 ? fixed(value, value < 1 ? 2 : 1) : fixed(value, 0)

/** shutterS: the light burns on, and has a luminance beside its sum over the exposure; null: there is flash in it. */
export function spotWords({ codes, luminance, whiteLuxSeconds }: Spot, shutterS: number | null): string {
  const light = shutterS === null ? `${three(luminance)} cd·s/m²` : `${three(luminance / shutterS)} cd/m²`
  return `sRGB ${codes.join(' ')}; ${light}, as white in ${three(whiteLuxSeconds)} lx·s`
}
