import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type BoxLining, solveBox } from '../../../src/photometry'

/**
 * MAT-DOUBLE of shared/check-values.json: two cloths close together let T₁T₂/(1 − R₁R₂) through (geometric series; Stokes, Kubelka).
 * A softbox is solved by patches that know nothing of that series: with an inner cloth 0.4 mm behind its front and all else
 * black it must come out.
 */
interface TwoCloths {
  readonly T1: number
  readonly T2: number
  readonly R1: number
  readonly R2: number
}
const { inputs, expected } = JSON.parse(readFileSync('shared/check-values.json', 'utf8')).find(
  ({ id }: { id: string }) => id === 'MAT-DOUBLE',
) as { readonly inputs: TwoCloths; readonly expected: number }

const SIZE = { widthM: 0.9, heightM: 0.9, depthM: 0.4, backM: 0.15 }
const CELLS = { front: [8, 8], back: 4, lining: [6, 6], inner: [8, 8] } as const

/** What leaves the box. Of what lands on the inner cloth its lamp side sends T₁ on; the rest is lost in black cloth. */
const out = ({ T1, T2, R1, R2 }: TwoCloths): number => {
  const inside: BoxLining = {
    ...{ lining: 0, back: 0, frontTransmittance: T2, frontReflectance: R2, lampM: 0.06 },
    lampShape: (cosine) => (1 + cosine) / 2,
    inner: { share: 1, at: 0.001, transmittance: T1, reflectance: R1 },
  }
  return solveBox(SIZE, inside, CELLS).transmittance
}

test.each([
  ['of the record', inputs, expected],
  ['thin before thick', { T1: 0.7, R1: 0.25, T2: 0.4, R2: 0.55 }, 0.28 / (1 - 0.1375)],
])('MAT-DOUBLE: two cloths %s, by the patches of a softbox within 0.3 %%', (_, cloths, through) => {
  const landed = out({ T1: 1, R1: 0, T2: 1, R2: 0 })
  expect(landed).toBeGreaterThan(0.2)
  expect(Math.abs(out(cloths) / landed / through - 1)).toBeLessThan(0.003)
})
