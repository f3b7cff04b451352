import { expect, test } from 'vitest'
import { directionThrough, projectToFrame } from '../../src/camera'
import { defaultModifier } from '../../src/gear'
import { directAt } from '../../src/meter'
import { INCIDENT_C, luminanceFromSrgb, type Rgb, type SkinTone } from '../../src/photometry'
import { firstSitting, type Sitting } from '../../src/sitting'
import { addScaled, normalize, type Vec3 } from '../../src/space'
import { agreementPage, TIMEOUT_MS } from './agreement-bench'
import { meterScene, pixelsOf, rigOfText } from './agreement-routes'

/**
 * A skin patch without shine and bounce is matt: its luminance is albedo · E/π (Lambert's law), so its picture value is albedo
 * times the incident reading over the one that sets the exposure (ISO 2720). Palest, middle and darkest skin, by the picture's pixels against the
 * meter's incident light at the same place.
 */
const SIZE = { width: 64, height: 80 }
const WITHIN = 0.02
/** One of them with enough samples that light goes some way in the skin, as only later ones have it. */
const SETTLED = 'tan'
const SKINS: readonly SkinTone[] = ['very light', SETTLED, 'very dark']
const PLACES = ['foreheadCentre', 'cheekLeft', 'cheekRight', 'chin'] as const

const first = firstSitting()
const black = { ...first.room, wallReflectance: 0, ceilingReflectance: 0, floorReflectance: 0 }
const sittingWith = (skin: Sitting['sitters'][number]['skin']): Sitting => ({
  ...first,
  sitters: [{ ...first.sitters[0], headTurnDeg: 0, skin }],
  sources: [
    { ...first.sources[0], modifier: defaultModifier('dish'), centreM: [0.35, 1.5, 1.6], aimM: [0, 1.15, 0], on: true },
  ],
  panels: [],
  backdrop: null,
  takes: [],
  room: black,
  camera: {
    ...first.camera,
    positionM: [0, 1.2, 2],
    aimM: [0, 1.17, 0],
    focalLengthMm: 200,
    sensorWidthMm: 24,
    sensorHeightMm: 30,
  },
})

const open = agreementPage()

test(
  'skin: without shine and bounce a patch is as bright as its albedo times its incident light',
  async () => {
    for (const skin of SKINS) {
      const sittingText = JSON.stringify(sittingWith(skin))
      const scene = meterScene(rigOfText(sittingText))
      const { view, figures } = scene.rig
      const order = {
        set: { sittingText },
        ...SIZE,
        samples: skin === SETTLED ? 96 : 64,
        bounce: null,
        fNumber: view.fNumber,
        noShine: true,
      }
      const { linear } = await pixelsOf(open, order)
      const [{ posed, albedo }] = figures
      let compared = 0
      for (const place of PLACES) {
        const at = projectToFrame(posed.landmarks[place].position, view.frame, view)!
        const column = Math.floor(((at.x + 1) / 2) * SIZE.width)
        const row = Math.floor(((1 - at.y) / 2) * SIZE.height)
        const towards = directionThrough(
          (2 * (column + 0.5)) / SIZE.width - 1,
          1 - (2 * (row + 0.5)) / SIZE.height,
          view.frame,
          view,
        )
        const hit = scene.caster.nearest(view.frame.origin, towards)!
        const met = scene.bodies.meanings[hit.bodyIndex]
        if (met.kind !== 'figure' || met.part.name !== 'skin') continue
        const { mesh, part } = met.part
        const corner = (values: Float32Array, k: number): number =>
          hit.barycentric.reduce((sum, b, c) => sum + b * values[3 * mesh.indices[3 * hit.triangle + c] + k], 0)
        const normal = normalize([0, 1, 2].map((k) => corner(mesh.normals, k)) as unknown as Vec3)
        const point = addScaled(addScaled(view.frame.origin, towards, hit.distance), normal, 2e-4)
        const lux = directAt(scene, { point, normal }, 'disc').reduce(
          (sum, light) => sum + luminanceFromSrgb(light.rgb),
          0,
        )
        const rho = luminanceFromSrgb([0, 1, 2].map((k) => albedo.skin[k] * corner(part.tint, k)) as unknown as Rgb)
        const expected = (rho * lux * view.iso) / (INCIDENT_C * view.fNumber ** 2)
        const pixel = 4 * (row * SIZE.width + column)
        const value = luminanceFromSrgb([0, 1, 2].map((k) => linear[pixel + k]) as unknown as Rgb)
        expect(Math.abs(value / expected - 1), `${skin}, ${place}: ${value} against ${expected}`).toBeLessThan(WITHIN)
        compared++
      }
      expect(compared, skin).toBeGreaterThan(2)
    }
  },
  TIMEOUT_MS,
)
