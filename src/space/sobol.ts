/**
 * Sobol points, dimensions 1 to 6, with XOR scrambling: the first two dimensions are a (0,2) sequence, so any aligned
 * 2^k of them are stratified. Direction numbers: S. Joe and F. Y. Kuo, new-joe-kuo-6.21201 (2008), first rows.
 */
const ROWS: readonly { readonly s: number; readonly a: number; readonly m: readonly number[] }[] = [
  { s: 1, a: 0, m: [1] },
  { s: 2, a: 1, m: [1, 3] },
  { s: 3, a: 1, m: [1, 3, 1] },
  { s: 3, a: 2, m: [1, 1, 1] },
  { s: 4, a: 1, m: [1, 1, 3, 3] },
]
const BITS = 32
const DIRECTIONS: readonly Uint32Array[] = [vanDerCorput(), ...ROWS.map(directionNumbers)]

function vanDerCorput(): Uint32Array {
  return Uint32Array.from({ length: BITS }, (_, i) => 2 ** (31 - i))
}

function directionNumbers({ s, a, m }: (typeof ROWS)[number]): Uint32Array {
  const v = new Uint32Array(BITS)
  for (let i = 0; i < BITS; i++) {
    if (i < s) v[i] = m[i] * 2 ** (31 - i)
    else {
      let x = v[i - s] ^ (v[i - s] >>> s)
      for (let k = 1; k < s; k++) if ((a >> (s - 1 - k)) & 1) x ^= v[i - k]
      v[i] = x
    }
  }
  return v
}

/** Points that are asked for most, made once. */
const FIRST = 512
const FIRST_BITS: readonly Uint32Array[] = DIRECTIONS.map((_, dimension) =>
  Uint32Array.from({ length: FIRST }, (_, index) => bitsOf(index, dimension)),
)

function bitsOf(index: number, dimension: number): number {
  const v = DIRECTIONS[dimension]
  let bits = 0
  for (let i = 0, n = index; n !== 0; i++, n = Math.floor(n / 2)) if (n & 1) bits ^= v[i]
  return bits
}

/** Coordinate of the index-th point, in [0, 1). scramble: any 32-bit number, one a dimension and stream. */
export function sobol(index: number, dimension: number, scramble = 0): number {
  const bits = index < FIRST ? FIRST_BITS[dimension][index] : bitsOf(index, dimension)
  return ((bits ^ scramble) >>> 0) / 2 ** 32
}

/** A well-mixed 32-bit hash, for scrambles: the same seed and stream always give the same picture. */
export function hash32(a: number, b = 0): number {
  let h = (Math.imul(a ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(b + 0x165667b1, 0xc2b2ae35)) >>> 0
  h = Math.imul(h ^ (h >>> 16), 0x7feb352d)
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b)
  return (h ^ (h >>> 16)) >>> 0
}
