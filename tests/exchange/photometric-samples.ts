/** Photometric files written for the tests: closed-form luminaires over a grid, in both formats, any symmetry and unit. */

const DEG = Math.PI / 180
export const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step)

export interface IesOrder {
  readonly planes: readonly number[]
  readonly angles: readonly number[]
  /** cd at a plane and an angle, degrees. */
  readonly candela: (plane: number, angle: number) => number
  readonly tilt?: string
  readonly type?: 1 | 2 | 3
  readonly units?: 1 | 2
  readonly size?: string
  readonly lumens?: number
  readonly multiplier?: number
  readonly ballast?: number
  readonly newline?: string
}

export function iesText(order: IesOrder): string {
  const { planes, angles, candela, tilt = 'TILT=NONE', type = 1, units = 2, size = '0.6 0.3 0' } = order
  const { lumens = -1, multiplier = 1, ballast = 1, newline = '\n' } = order
  const scale = multiplier * ballast
  return [
    'IESNA:LM-63-2002',
    '[TEST] 1',
    '[MANUFAC] none',
    '[LUMINAIRE] test lamp',
    tilt,
    `1 ${lumens} ${multiplier} ${angles.length} ${planes.length} ${type} ${units} ${size}`,
    `${ballast} 1 100`,
    angles.join(' '),
    planes.join(' '),
    ...planes.map((plane) => angles.map((angle) => (candela(plane, angle) / scale).toFixed(5)).join(' ')),
    '',
  ].join(newline)
}

export interface LdtOrder {
  readonly symmetry: 0 | 1 | 2 | 3 | 4
  readonly candela: (plane: number, angle: number) => number
  readonly flux?: number
  readonly angles?: readonly number[]
}

/** 24 planes of 15°, of which as many rows as the symmetry asks. */
export function ldtText({ symmetry, candela, flux = 2500, angles = range(0, 180, 5) }: LdtOrder): string {
  const all = range(0, 345, 15)
  const [low, high] = [
    [0, 345],
    [0, 0],
    [0, 180],
    [90, 270],
    [0, 90],
  ][symmetry] as [number, number]
  const measured = all.filter((plane) => plane >= low && plane <= high)
  const head = ['none', 2, symmetry, all.length, 15, angles.length, 5, '1', 'test lamp', '1', 'a.ldt', '2024']
  const body = [600, 300, 50, 600, 300, 0, 0, 0, 0, 100, 80, 1, 0, 1]
  const lamps = [1, 'LED', flux, '4000', '80', 20]
  const values = measured.flatMap((plane) => angles.map((angle) => ((candela(plane, angle) * 1000) / flux).toFixed(5)))
  return [...head, ...body, ...lamps, ...Array(10).fill(0.5), ...all, ...angles, ...values, ''].join('\r\n')
}

/** Lambert's panel, 1000 cd on its axis: π·1000 lm. */
export const panel = (_: number, angle: number): number => (angle < 90 ? 1000 * Math.cos(angle * DEG) : 0)

/** cos²θ·(1 + k·cos 2φ + …): any symmetry by its harmonics; the flux is that of cos²θ, 2π/3·1000 lm, whatever they are. */
export const winged =
  (harmonic: (phi: number) => number) =>
  (plane: number, angle: number): number =>
    angle < 90 ? 1000 * Math.cos(angle * DEG) ** 2 * (1 + 0.4 * harmonic(plane * DEG)) : 0
export const WINGED_LM = (2 * Math.PI * 1000) / 3

/** The harmonic of each symmetry; each adds nothing to the flux (its mean round the circle is nought). */
export const SYMMETRIES = [
  ['axial', [0], () => 0, 1],
  ['quadrants', range(0, 90, 15), (phi: number) => Math.cos(2 * phi), 4],
  ['halves from 0°', range(0, 180, 15), (phi: number) => Math.cos(phi), 2],
  ['halves from 90°', range(90, 270, 15), (phi: number) => Math.sin(phi), 3],
  ['none', range(0, 360, 15), (phi: number) => Math.cos(phi + 0.3), 0],
] as const
