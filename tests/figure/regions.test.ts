import { expect, test } from 'vitest'
import {
  FACE_REGIONS,
  type FigureAsset,
  faceRegions,
  type LandmarkName,
  posedRegions,
  poseFigure,
  type RegionPlace,
  SHAPE_PRESET_NAMES,
  SHAPE_PRESETS,
  shapeFigure,
} from '../../src/figure'
import { skinOf } from './mesh-callipers'
import { asset as first } from './sculpture'

const named = (asset: FigureAsset): readonly RegionPlace[] => {
  const name = faceRegions(asset.landmarks)
  const p = skinOf(asset).positions
  return Array.from({ length: p.length / 3 }, (_, v) => name([p[3 * v], p[3 * v + 1], p[3 * v + 2]]))
}
const onFirst = named(first)

/** By what anatomy's words mean: the cheek's landmark is on the cheek, the stomion between the lips, the sellion on the nose's root. */
const HELD: Partial<Record<LandmarkName, string>> = {
  foreheadCentre: 'forehead',
  glabella: 'forehead',
  sellion: 'nose',
  noseTip: 'nose',
  cheekLeft: 'cheek',
  cheekRight: 'cheek',
  noseShadowCheekLeft: 'cheek',
  pupilLeft: 'lids',
  stomion: 'mouth',
  chin: 'chin',
  neckFront: 'neck',
  sternalNotch: 'neck',
  earLeft: 'ear',
  crown: 'scalp',
  backOfHead: 'scalp',
}

test.each(SHAPE_PRESET_NAMES)('%s: landmarks lie in the region that they are named after', (preset) => {
  const { landmarks } = shapeFigure(first, SHAPE_PRESETS[preset])
  const name = faceRegions(landmarks)
  const found = Object.keys(HELD).map((place) => [place, name(landmarks[place as LandmarkName].position).region])
  expect(Object.fromEntries(found)).toEqual(HELD)
  expect(name(landmarks.cheekLeft.position).side).toBe('left')
  expect(name(landmarks.cheekRight.position).side).toBe('right')
})

/** All shapes share their vertices: the same vertex is the same place of skin. What moves over a border is a grain at it. */
test.each(SHAPE_PRESET_NAMES)('%s: a vertex has the name that it has on the first sitter', (preset) => {
  const there = named(shapeFigure(first, SHAPE_PRESETS[preset]))
  expect(there.filter(({ region }, v) => region === onFirst[v].region).length / there.length).toBeGreaterThan(0.97)
  for (const region of FACE_REGIONS) {
    const [now, before] = [there, onFirst].map((all) => all.filter((one) => one.region === region).length)
    // The temple has some seventy vertices, and a quarter of them may go, give or take one.
    expect(Math.abs(now / before - 1), region).toBeLessThan(0.27)
  }
})

test('both halves have the same names, but for the ragged hairline', () => {
  const name = faceRegions(first.landmarks)
  const p = skinOf(first).positions
  const differ = onFirst.filter(({ region }, v) => name([-p[3 * v], p[3 * v + 1], p[3 * v + 2]]).region !== region)
  expect(differ.length / onFirst.length).toBeLessThan(0.005)
})

/** Every region hangs together on each side: walking over triangles of one name reaches nearly all of them. */
test.each(FACE_REGIONS)('%s is one piece', (region) => {
  const { indices } = skinOf(first)
  const mine = (v: number) => onFirst[v].region === region && onFirst[v].side === 'left'
  const beside = new Map<number, number[]>()
  for (let t = 0; t < indices.length; t += 3)
    for (const [a, b] of [
      [0, 1],
      [1, 2],
      [2, 0],
    ].map((edge) => edge.map((k) => indices[t + k])))
      if (mine(a) && mine(b)) {
        beside.set(a, [...(beside.get(a) ?? []), b])
        beside.set(b, [...(beside.get(b) ?? []), a])
      }
  let largest = 0
  const seen = new Set<number>()
  for (const start of beside.keys()) {
    if (seen.has(start)) continue
    const piece = [start]
    seen.add(start)
    for (const v of piece)
      for (const next of beside.get(v) ?? [])
        if (!seen.has(next)) {
          seen.add(next)
          piece.push(next)
        }
    largest = Math.max(largest, piece.length)
  }
  expect(seen.size).toBeGreaterThan(100)
  expect(largest / seen.size).toBeGreaterThan(0.97)
})

test('a posed head has the names that it has at rest', () => {
  const pose = {
    positionM: [0.3, 0, -0.2],
    eyeHeightM: 1.4,
    bodyTurnDeg: 20,
    headTurnDeg: -35,
    headTiltDeg: 12,
    chinDeg: 8,
  } as const
  const posed = poseFigure(first, pose)
  const name = posedRegions(posed)
  const { positions: p } = posed.parts[0].mesh
  const { headWeight } = first.parts[0]
  // What follows the head in full; the neck bends between it and the body.
  const rigid = Array.from({ length: p.length / 3 }, (_, v) => v).filter((v) => headWeight[v] === 1)
  expect(rigid.length).toBeGreaterThan(10000)
  const same = rigid.filter((v) => name([p[3 * v], p[3 * v + 1], p[3 * v + 2]]).region === onFirst[v].region)
  expect(same.length / rigid.length).toBeGreaterThan(0.999)
})
