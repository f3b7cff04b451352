import { expect, test } from 'vitest'
import records from '../../shared/emission-values.json' with { type: 'json' }
import { defaultModifier, modifierKind } from '../../src/gear'

const shaftOf = (kind: string, fields: Record<string, number | string> = {}) =>
  modifierKind(kind).shaft!({ ...defaultModifier(kind), ...fields })

interface Computed {
  readonly id: string
  readonly inputs: { readonly D: number; readonly depthShare: number; readonly s: number; readonly kind: string }
  readonly expected: { readonly spill: number; readonly D90?: number }
}
const silver = (records as unknown as readonly Computed[]).filter(({ id }) => id.startsWith('EMIT-B-silver'))

test.each(silver.map((record) => [record.id, record] as const))(
  '%s: share past the canopy',
  (_, { inputs, expected }) => {
    const { spilledShare } = shaftOf('silver-umbrella', {
      diameterM: inputs.D,
      depthM: inputs.depthShare * inputs.D,
      shaftM: inputs.s,
    })
    expect(Math.abs(spilledShare - expected.spill)).toBeLessThan(0.003)
  },
)

test('the records are of several widths and shafts', () => {
  expect(new Set(silver.map(({ inputs }) => `${inputs.D} ${inputs.s}`)).size).toBeGreaterThan(3)
})

test('lit width: rays at the angle at which cosⁿ is a tenth, marched to a sphere through apex and rim', () => {
  // n of the 65° dish, where half is left at 32.5°: ln ½ / ln cos 32.5°.
  const n = Math.log(0.5) / Math.log(Math.cos((32.5 * Math.PI) / 180))
  const angle = Math.acos(0.1 ** (1 / n))
  for (const [diameterM, depthM, shaftM] of [
    [0.95, 0.209, 0.3],
    [1.5, 0.33, 0.6],
    [1.05, 0.4, 0.5],
    [0.95, 0.209, 0.7],
  ]) {
    const radius = (diameterM ** 2 / 4 + depthM ** 2) / (2 * depthM)
    let [r, z] = [0, shaftM]
    while (Math.hypot(r, z - radius) < radius && z < shaftM + 1) {
      r += 1e-5 * Math.sin(angle)
      z -= 1e-5 * Math.cos(angle)
    }
    // Past the rim the sphere goes on, the cap does not. A lamp outside the sphere starts past it.
    const isOutside = Math.abs(shaftM - radius) > radius
    const expected = isOutside || z > depthM ? diameterM : 2 * r
    const { litDiameterM } = shaftOf('deep-umbrella', { diameterM, depthM, shaftM })
    expect(litDiameterM).toBeCloseTo(expected, 3)
  }
})

test('at the filling shaft the beam reaches the rim, and a little nearer it does not', () => {
  const { fillingM } = shaftOf('white-umbrella')
  const at = (shaftM: number) => shaftOf('white-umbrella', { shaftM })
  expect(at(fillingM + 1e-6).litDiameterM).toBe(at(fillingM).openDiameterM)
  expect(at(fillingM - 0.01).litDiameterM).toBeLessThan(at(fillingM).openDiameterM)
})

test('focus of silver: rays from it to a sphere leave along the axis, near the axis; white has none', () => {
  const { focusM, openDiameterM } = shaftOf('silver-umbrella')
  const { depthM } = defaultModifier('silver-umbrella')
  const radius = (openDiameterM ** 2 / 4 + Number(depthM) ** 2) / (2 * Number(depthM))
  // A ray to a point 2 cm off the axis, mirrored at the normal through the sphere's centre.
  const [r, z] = [0.02, radius - Math.sqrt(radius ** 2 - 0.02 ** 2)]
  const [dr, dz] = [r, z - focusM!]
  const [nr, nz] = [-r / radius, (radius - z) / radius]
  const along = dr * nr + dz * nz
  const out = [dr - 2 * along * nr, dz - 2 * along * nz]
  expect(Math.abs(Math.atan2(out[0], out[1]))).toBeLessThan(0.002)
  expect(shaftOf('white-umbrella').focusM).toBeNull()
})

test('a cloth over the front sends nothing past the canopy', () => {
  expect(shaftOf('white-umbrella', { front: 'cloth' }).spilledShare).toBe(0)
})
