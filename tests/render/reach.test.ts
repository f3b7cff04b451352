/** What the renderer leaves out of its shadows must throw none: random small boards and balls against exact segments. */
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { litCloud, mayBlock, seenCloud } from '../../src/render/reach'
import { assembleRig } from '../../src/rig'
import { readSitting } from '../../src/sitting'
import {
  add,
  addScaled,
  basisAround,
  cross,
  dot,
  length,
  normalize,
  pointToWorld,
  type Rect,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const rigOf = (scene: string) => {
  const read = readSitting(readFileSync(`scenes/${scene}.sitting.json`, 'utf8'))
  if ('problems' in read) throw new Error(scene)
  return assembleRig(read.sitting, { figure })
}

function blocks({ centre, halfU, halfV }: Rect, from: Vec3, to: Vec3): boolean {
  const normal = normalize(cross(halfU, halfV))
  const [a, b] = [dot(subtract(from, centre), normal), dot(subtract(to, centre), normal)]
  if (a * b >= 0 || Math.abs(b) < 0.02) return false
  const hit = subtract(addScaled(from, subtract(to, from), a / (a - b)), centre)
  return [halfU, halfV].every((half) => Math.abs(dot(hit, half)) <= dot(half, half))
}

/** Where the lens looks: a grid of the frame on the backdrop plane, and the sitter's skin. */
function seenPlaces(rig: ReturnType<typeof rigOf>): Vec3[] {
  const { frame, sensorWidthMm, sensorHeightMm, focalLengthMm } = rig.view
  const backdrop = rig.surfaces.find(({ kind }) => kind === 'backdrop')
  const z = backdrop ? backdrop.rect.centre[2] : -1
  const steps = Array.from({ length: 21 }, (_, i) => i / 20 - 0.5)
  const onBackdrop = steps.flatMap((u) =>
    steps.map((v) => {
      const d = add(
        frame.z,
        add(scale(frame.x, (u * sensorWidthMm) / focalLengthMm), scale(frame.y, (v * sensorHeightMm) / focalLengthMm)),
      )
      return addScaled(frame.origin, d, (z - frame.origin[2]) / d[2])
    }),
  )
  const skin = rig.figures[0].posed.parts[0].mesh.positions
  const onSkin = Array.from({ length: 200 }, (_, i): Vec3 => {
    const at = 3 * Math.floor((i * skin.length) / 600)
    return [skin[at], skin[at + 1], skin[at + 2]]
  })
  return [...onBackdrop, ...onSkin]
}

const coordinate = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const board = fc
  .record({
    x: coordinate(-1.5, 1.5),
    y: coordinate(0.5, 2.2),
    z: coordinate(-1.4, 1.2),
    nx: coordinate(-1, 1),
    ny: coordinate(-1, 1),
    nz: coordinate(-1, 1),
    w: coordinate(0.03, 0.4),
    h: coordinate(0.03, 0.4),
  })
  .filter(({ nx, ny, nz }) => length([nx, ny, nz]) > 0.1)
  .map(({ x, y, z, nx, ny, nz, w, h }): Rect => {
    const [u, v] = basisAround(normalize([nx, ny, nz]))
    return { centre: [x, y, z], halfU: scale(u, w / 2), halfV: scale(v, h / 2) }
  })

test.each(['hard-key-from-the-side', 'notice-board', 'coloured-backdrop'])(
  '%s: no board that shades a seen place is left out',
  (scene) => {
    const rig = rigOf(scene)
    const seen = seenCloud(rig)
    const places = seenPlaces(rig)
    let shading = 0
    for (const source of rig.sources) {
      const lit = litCloud(source)
      const points = source.emitters.flatMap(({ frame, emission }) =>
        [0.05, 0.35, 0.65, 0.95].flatMap((u) =>
          [0.1, 0.5, 0.9].map((v) => pointToWorld(frame, emission.at(u, v).point)),
        ),
      )
      fc.assert(
        fc.property(board, (rect) => {
          if (!points.some((from) => places.some((to) => blocks(rect, from, to)))) return
          shading++
          expect(mayBlock({ kind: 'rectangle', rect } as Parameters<typeof mayBlock>[0], lit, seen)).toBe(true)
        }),
        { seed: 11, numRuns: 150 },
      )
    }
    expect(shading, 'the test must see shadows').toBeGreaterThan(10)
  },
)

test('it still tells: the backdrop and a panel beside the sitter block nothing of the notice board', () => {
  const rig = rigOf('notice-board')
  const [lit, seen] = [litCloud(rig.sources[0]), seenCloud(rig)]
  const kept = rig.surfaces
    .filter(({ kind }) => kind === 'backdrop' || kind === 'panel')
    .filter(({ rect }) => mayBlock({ kind: 'rectangle', rect } as Parameters<typeof mayBlock>[0], lit, seen))
  expect(kept.map(({ id }) => id)).toEqual([])
})
