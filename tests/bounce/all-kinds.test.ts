import { expect, test } from 'vitest'
import { directIrradiance, litPools } from '../../src/bounce/direct'
import { buildModifier, defaultModifier, MODIFIER_KINDS } from '../../src/gear'
import { irradianceAt } from '../../src/photometry'
import { directionToLocal, pointToLocal, type RayCaster, type Vec3 } from '../../src/space'
import { sourceOf } from '../rig/alone'

/**
 * First light of every kind: what the bounce throws from lamp points (flux route) on a board before the source and on one behind it,
 * against a quadrature over the lit surfaces (area route). The two share neither points nor sums.
 */
const OPEN: RayCaster = { visible: () => true, nearest: () => null }
const ACROSS = 6
const SIZE_M = 1.2
/** Places of a board in the plane z. */
const boardAt = (z: number): readonly Vec3[] =>
  Array.from({ length: ACROSS ** 2 }, (_, i): Vec3 => {
    const at = (k: number) => ((k + 0.5) / ACROSS - 0.5) * SIZE_M
    return [at(i % ACROSS) + 0.2, at(Math.floor(i / ACROSS)) - 0.1, z]
  })

const meanOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

test.each(MODIFIER_KINDS.map(({ id, remote }) => [id, remote?.distanceM ?? 1.6] as const))(
  '%s: on the mean within 1 %%, place by place within 3 %% of it',
  (id, aheadM) => {
    const { emitters } = buildModifier(defaultModifier(id))
    const source = sourceOf(emitters[0]!.emission)
    const pools = litPools({ ...source, emitters })
    let lit = 0
    for (const [z, normal] of [
      [aheadM, [0, 0, -1]],
      [-aheadM, [0, 0, 1]],
    ] as const) {
      const places = boardAt(z)
      const byArea = places.map((at) =>
        emitters.reduce((sum, { emission, frame }) => {
          const n = emission.profile === 'canopy' ? 40 : 48
          return sum + irradianceAt(emission, pointToLocal(frame, at), directionToLocal(frame, normal), n)
        }, 0),
      )
      const byFlux = places.map((point, i) =>
        directIrradiance(pools, i, 512, () => ({ point, normal }), OPEN, undefined),
      )
      const mean = meanOf(byArea)
      if (mean === 0) {
        expect(meanOf(byFlux)).toBe(0)
        continue
      }
      lit++
      const rms = Math.sqrt(meanOf(byFlux.map((value, i) => ((value - byArea[i]!) / mean) ** 2)))
      expect(Math.abs(meanOf(byFlux) / mean - 1), `${z} m`).toBeLessThan(0.01)
      expect(rms, `${z} m`).toBeLessThan(0.03)
    }
    expect(lit).toBeGreaterThan(0)
  },
)
