import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { exposureScale, plateOf, projectToFrame, spotOf } from '../../src/camera'
import { readFigureAsset } from '../../src/figure'
import { assembleRig } from '../../src/rig'
import { firstSitting } from '../../src/sitting'
import { spotAt, spotStops, spotWords, stepSpot } from '../../src/ui/judge/spot'
import { zeroOf } from '../../src/ui/judge/zero'

const scale = exposureScale(100, 8)

describe('spot meter', () => {
  test('an arrow key goes a cell on, with Shift ten, and stays in the picture', () => {
    const plate = { columns: 100, rows: 150 }
    expect(stepSpot({ x: 0.5, y: 0.5 }, 'ArrowLeft', false, plate)).toEqual({ x: 0.49, y: 0.5 })
    expect(stepSpot({ x: 0.5, y: 0.04 }, 'ArrowUp', true, plate)).toEqual({ x: 0.5, y: 0 })
    expect(stepSpot({ x: 0.5, y: 0.5 }, 'Enter', false, plate)).toBeNull()
  })
  test('reads the cell under it, in stops, codes and light', () => {
    const rgba = Float32Array.from([0.18, 0.18, 0.18, 1, 0.72, 0.72, 0.72, 1])
    const plate = { ...plateOf({ width: 2, height: 1, rgba }), scale }
    expect(spotStops(spotAt(plate, { x: 0.1, y: 0.5 }).stops)).toBe('0.0')
    const bright = spotAt(plate, { x: 0.9, y: 0.5 })
    expect(spotStops(bright.stops)).toBe('+2.0')
    // sRGB of 0.72 is 1.055·0.72^(1/2.4) − 0.055 = 0.8650, code 221 (IEC 61966-2-1); 72 % of the 160 lx·s that f/8 asks for at ISO 100, and that over π.
    expect(spotWords(bright, null)).toBe('sRGB 221 221 221; 36.7 cd·s/m², as white in 115 lx·s')
    expect(spotWords(bright, 1 / 100)).toBe('sRGB 221 221 221; 3667 cd/m², as white in 115 lx·s')
    expect(spotStops(spotOf([0, 0, 0], scale).stops)).toBe('no light')
  })
})

describe('what the map counts from', () => {
  const rig = assembleRig(firstSitting(), {
    figure: readFigureAsset(new Uint8Array(readFileSync('assets/sitter.glb'))),
  })
  const lit = (value: number) => {
    const rgba = Float32Array.from({ length: 4 * 60 * 90 }, () => value)
    return plateOf({ width: 60, height: 90, rgba, sitters: new Uint8Array(60 * 90).fill(1) })
  }
  test('the near cheek, where its place is seen', () => {
    const zero = zeroOf(rig, lit(0.4))
    expect(zero.luminance).toBeCloseTo(0.4, 6)
    const cheek = rig.figures[0].posed.landmarks.cheekRight.position
    const left = rig.figures[0].posed.landmarks.cheekLeft.position
    const seen = [cheek, left].map((place) => projectToFrame(place, rig.view.frame, rig.view)!.x)
    expect(seen.some((x) => Math.abs((1 + x) / 2 - zero.at!.x) < 1e-9)).toBe(true)
  })
  test('middle grey where the lens looks elsewhere or no light is there', () => {
    const { frame } = rig.view
    const back = {
      ...rig,
      view: { ...rig.view, frame: { ...frame, z: [-frame.z[0], frame.z[1], -frame.z[2]] as const } },
    }
    expect(zeroOf(back, lit(0.4))).toEqual({ luminance: 0.18, at: null })
    expect(zeroOf(rig, lit(0))).toEqual({ luminance: 0.18, at: null })
  })
})
