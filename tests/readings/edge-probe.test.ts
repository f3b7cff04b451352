/** What a cheek sees from the middle of the edge of the nose shadow, held against the area of a disc seen from its axis (Nusselt: r² / (r² + d²)). */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, HalfRoom } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import { edgeProbe } from '../../src/readings'
import { assembleRig } from '../../src/rig'
import { firstSitting, type Sitting } from '../../src/sitting'
import { addScaled, distance, normalize } from '../../src/space'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const [sitter] = firstSitting().sitters
/** Nothing else in a room that is large enough. */
const first: Sitting = {
  ...firstSitting(),
  sitters: [{ ...sitter, headTurnDeg: 0, bodyTurnDeg: 0 }],
  panels: [],
  backdrop: null,
  room: { ...firstSitting().room, widthM: 12, depthM: 12, heightM: 8 },
}
/** From the nose to the lamp: 32° to camera left, 32° up. */
const WAY = normalize([-0.45, 0.53, 0.72])

/** A dish of that diameter so far from the tip of the nose. */
function lit(diameterM: number, awayM: number): Sitting {
  const [key] = first.sources
  const tip = assembleRig(first, { figure }).figures[0].posed.landmarks.noseTip.position
  const modifier = { ...key!.modifier, kind: 'dish' as const, diameterM, grid: 'none' as const, bodyM: 0.3 }
  return { ...first, sources: [{ ...key!, modifier, centreM: addScaled(tip, WAY, awayM), aimM: tip }] }
}

function seen(sitting: Sitting) {
  const rig = assembleRig(sitting, { figure })
  const bodies = bodiesOf(rig)
  const scene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
  const probe = edgeProbe(scene)!
  const steps = new HalfRoom(scene, probe).grid(96)
  for (;;) {
    const step = steps.next()
    if (!step.done) continue
    const share = step.value.things.filter(({ kind }) => kind === 'source').reduce((sum, { share }) => sum + share, 0)
    return { share, awayM: distance(probe.point, rig.sources[0]!.frame.origin) }
  }
}

test.each([0.4, 0.8])('of a dish of %f m the nose leaves about half', (diameterM) => {
  const { share, awayM } = seen(lit(diameterM, 1.5))
  const r2 = (diameterM / 2) ** 2
  const half = share / (r2 / (r2 + awayM ** 2))
  expect(half).toBeGreaterThan(0.35)
  expect(half).toBeLessThan(0.65)
})

test('twice the size at twice the distance looks the same, and at one distance four times as large', () => {
  const [small, far, wide] = [lit(0.4, 1.2), lit(0.8, 2.4), lit(0.8, 1.2)].map((sitting) => seen(sitting).share)
  expect(Math.abs(far! / small! - 1)).toBeLessThan(0.05)
  // A little under four: r² + d² grows with r too. Its middle is cut by the nose, whose outline is no straight line.
  expect(wide! / small!).toBeGreaterThan(3.3)
  expect(wide! / small!).toBeLessThan(4.2)
})

test('no key, no edge to stand in', () => {
  const rig = assembleRig({ ...first, sources: [] }, { figure })
  const { bodies } = bodiesOf(rig)
  expect(edgeProbe({ rig, caster: createRayCaster(bodies) })).toBeNull()
})
