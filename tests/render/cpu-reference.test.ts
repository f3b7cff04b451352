import { expect, test } from 'vitest'
import { bodiesOf } from '../../src/meter'
import { uniformSurface } from '../../src/photometry'
import { createRayCaster } from '../../src/rays'
import type { Rig, RigSource, Surface } from '../../src/rig'
import { frameTowards, type Vec3 } from '../../src/space'
import { cpuDirect } from './cpu-reference'

const view = {
  frame: frameTowards([0, 1, 3], [0, 1, 0]),
  focalLengthMm: 50,
  sensorWidthMm: 36,
  sensorHeightMm: 24,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
}

function lamp(surface: { shape: 'disc'; radiusM: number }, at: Vec3, aim: Vec3): RigSource {
  const frame = frameTowards(at, aim)
  const emission = uniformSurface({ surface, luminance: 1 })
  return {
    id: 'A',
    letter: 'A',
    role: 'key',
    on: true,
    frame,
    aim,
    axialIntensity: 1,
    colour: [1, 1, 1],
    emitters: [{ id: 'front', frame, emission, part: 'front' }],
    gear: [],
    litFace: { shape: 'disc', widthM: 2 * surface.radiusM, heightM: 2 * surface.radiusM },
  }
}

const card = (id: string, centre: Vec3, half: number, albedo: number): Surface => ({
  id,
  kind: 'card',
  rect: { centre, halfU: [half, 0, 0], halfV: [0, half, 0] },
  front: { kind: 'matt', albedo: [albedo, albedo, albedo] },
  back: { kind: 'matt', albedo: [albedo, albedo, albedo] },
})

const rigOf = (sources: RigSource[], surfaces: Surface[]): Rig => ({ sources, surfaces, balls: [], figures: [], view })

test('a disc before a parallel card: E = πL·R²/(R² + d²) on the axis (disc to a facing element, Howell catalogue B-12)', () => {
  const rig = rigOf([lamp({ shape: 'disc', radiusM: 0.5 }, [0, 1, 1], [0, 1, 0])], [card('wall', [0, 1, 0], 2, 0.5)])
  const caster = createRayCaster(bodiesOf(rig).bodies)
  const { layers } = cpuDirect(rig, caster, 9, 9, 1024, { spread: false })
  const middle = layers[0][3 * 40]
  const truth = (0.5 * 0.25) / (0.25 + 1)
  expect(middle / truth).toBeCloseTo(1, 3)
})

test('the penumbra of an edge: half the disc is seen where its middle grazes the edge', () => {
  const flag: Surface = { ...card('flag', [-1, 1, 0.5], 1, 0) }
  const rig = rigOf(
    [lamp({ shape: 'disc', radiusM: 0.1 }, [0, 1, 1], [0, 1, 0])],
    [card('wall', [0, 1, 0], 2, 1), flag],
  )
  const { bodies } = bodiesOf(rig)
  // Seen from behind the lamp's axis the flag would hide the card: look from the far right instead.
  const aside = { ...rig, view: { ...view, frame: frameTowards([2, 1, 1.2], [0, 1, 0]), focalLengthMm: 400 } }
  const cut = cpuDirect(aside, createRayCaster(bodies), 15, 15, 1024)
  const open = cpuDirect(aside, createRayCaster(bodies), 15, 15, 1024, { shadowed: false })
  const at = 3 * (7 * 15 + 7)
  expect(cut.layers[0][at] / open.layers[0][at]).toBeCloseTo(0.5, 1)
  expect(cut.layers[0][at + 3 * 7]).toBeCloseTo(open.layers[0][at + 3 * 7], 3)
  expect(cut.layers[0][at - 3 * 7]).toBeLessThan(0.02 * open.layers[0][at])
})
