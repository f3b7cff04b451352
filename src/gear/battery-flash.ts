import { cosineDisc, exponentFromBeam, type Lamp } from '../photometry'
import { dome } from './bare-bulb'
import { DARK_METAL } from './cloths'
import { choice, length, numberOf, wordOf } from './fields'
import { ahead } from './head'
import type { BuiltModifier, Modifier, ModifierKind } from './types'

/** Angles of coverage, and what a flip-down panel and a slip-on dome let through: common practice, no source. */
const BEAMS_DEG = { window: 60, 'wide panel': 100 } as const
const PANEL_PASS = 0.9
const DOME_PASS = 0.75
/** A battery flash is as thick as a fist behind its window: common practice, no source. */
const BODY_RADIUS_M = 0.035

/**
 * A small flash on a stand. Its guide number is stated with its own window, so there its axial intensity is the unit itself;
 * panel and dome have the same lamp behind them.
 */
export const batteryFlash: ModifierKind = {
  id: 'battery-flash',
  label: 'Battery flash on a stand',
  fields: [
    choice('front', 'Front', ['window', 'wide panel', 'dome']),
    length('diameterM', 'Lit front, as a disc of the same area', 0.05, [0.01, 0.15], [0.04, 0.09]),
    length('bodyM', 'Length of the flash behind its front', 0.12, [0.05, 0.3], [0.1, 0.2]),
  ],
  build: (modifier) => {
    const front = wordOf(modifier, 'front')
    if (front === 'dome') return dome(modifier, WINDOW_FLUX * DOME_PASS, BODY_RADIUS_M, 'battery flash with dome')
    return flat(modifier, front === 'window' ? 'window' : 'wide panel')
  },
}

/** Φ = 2πI₀/(n + 1) of the window. */
const WINDOW_FLUX = (2 * Math.PI) / (exponentFromBeam(BEAMS_DEG.window) + 1)

function flat(modifier: Modifier, front: keyof typeof BEAMS_DEG): BuiltModifier {
  const diameterM = numberOf(modifier, 'diameterM')
  const radiusM = Math.max(BODY_RADIUS_M, diameterM / 2 + 0.005)
  const to = [0, 0, -numberOf(modifier, 'bodyM')] as const
  const flux = WINDOW_FLUX * (front === 'window' ? 1 : PANEL_PASS)
  return {
    emitters: [
      {
        id: 'window',
        part: 'front',
        frame: ahead(0),
        emission: cosineDisc(lampOf(BEAMS_DEG[front], flux, diameterM / 2)),
        cloth: { solid: 0, side: 'front' },
      },
    ],
    solids: [{ kind: 'cylinder', from: [0, 0, 0], to, radiusM, albedo: DARK_METAL }],
    litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
    tint: [1, 1, 1],
    name: front === 'window' ? 'battery flash' : 'battery flash with wide panel',
  }
}

function lampOf(beamDeg: number, flux: number, radiusM: number): Lamp {
  const exponent = exponentFromBeam(beamDeg)
  return { radiusM, exponent, axialIntensity: (flux * (exponent + 1)) / (2 * Math.PI) }
}
