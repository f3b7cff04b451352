import { expect, test } from 'vitest'
import { buildModifier, defaultModifier } from '../../src/gear'
import { bounceAt, directAt } from '../../src/meter'
import { luminanceFromSrgb } from '../../src/photometry'
import type { Surface } from '../../src/rig'
import { frameTowards } from '../../src/space'
import { BOUNCED, BOUNCED_RHO, FACE_PLACES, FLASH_AT, FLASH_EXPONENT, reflectedBy } from '../bounce/board-quadrature'
import { rigOf, sceneOf, sourceAt } from './fixtures'

const matt = { kind: 'matt', albedo: [BOUNCED_RHO, BOUNCED_RHO, BOUNCED_RHO] } as const

/** The flash of the shoe, turned to a matt board: what the meter traces against the double integral over the boards. */
test.each(BOUNCED)(
  'flash turned to the $name: the light that comes back, within 1.5 % of the brightest place',
  ({ aim, boards }) => {
    const surfaces = boards.map((rect, i): Surface => ({ id: `${i}`, kind: 'panel', rect, front: matt, back: matt }))
    const frame = frameTowards(FLASH_AT, aim)
    const [{ emission }] = buildModifier(defaultModifier('on-camera-flash')).emitters
    const lamp = sourceAt('A', { shape: 'disc', radiusM: 0.025 }, FLASH_AT, aim)
    const source = { ...lamp, emitters: [{ id: 'window', part: 'front' as const, frame, emission }] }
    const scene = sceneOf(rigOf([source], surfaces))
    const reflected = reflectedBy({ at: FLASH_AT, aim, exponent: FLASH_EXPONENT }, boards, BOUNCED_RHO)
    const expected = FACE_PLACES.map(reflected)
    for (const [i, place] of FACE_PLACES.entries()) {
      const [{ mean }] = bounceAt(scene, place, 'disc', { paths: 16_384 })
      expect(Math.abs(luminanceFromSrgb(mean) - expected[i]) / Math.max(...expected), `${place.normal}`).toBeLessThan(
        0.015,
      )
      // Straight from a window of 5 cm: cosⁿθ·cosine/d².
      const way = [0, 1, 2].map((k) => FLASH_AT[k] - place.point[k])
      const far = Math.hypot(...way)
      const axis = [0, 1, 2].map((k) => aim[k] - FLASH_AT[k])
      const off = -way.reduce((sum, x, k) => sum + x * axis[k], 0) / far / Math.hypot(...axis)
      const squarely = way.reduce((sum, x, k) => sum + x * place.normal[k], 0) / far
      const straight = directAt(scene, place, 'disc')[0].perCandela
      expect(Math.abs(straight / ((off ** FLASH_EXPONENT * squarely) / far ** 2) - 1)).toBeLessThan(0.005)
    }
  },
)
