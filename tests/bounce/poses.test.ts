import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import {
  type Bounce,
  bounceScene,
  bounceSteps,
  createBounce,
  DRAGGING,
  finish,
  type ListQuality,
  TURNING,
} from '../../src/bounce'
import { layOut } from '../../src/bounce/layout'
import { vertexShots } from '../../src/bounce/shots'
import { readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { assembleRig, createRigBuilder, type Rig } from '../../src/rig'
import { firstSitting, setPanel, setSitter } from '../../src/sitting'
import { dot } from '../../src/space'

const BYTES = readFileSync('assets/sitter.glb')
const first = firstSitting()
const turned = setSitter(first, first.sitters[0].id, { headTurnDeg: 40, chinDeg: -12 })
type Asset = ReturnType<typeof readFigureAsset>

const light = (rig: Rig) => {
  const scene = bounceScene(rig)
  return createBounce(scene, createRayCaster(scene.bodies), TURNING).solve(rig.sources[0], DRAGGING)
}

/** Bit for bit; a matcher that compares number by number takes seconds. */
function expectSame(a: Float32Array | Uint16Array, b: Float32Array | Uint16Array): void {
  expect(a.length).toBe(b.length)
  expect(
    Buffer.from(a.buffer, a.byteOffset, a.byteLength).equals(Buffer.from(b.buffer, b.byteOffset, b.byteLength)),
  ).toBe(true)
}

function expectSameLists(a: Bounce, b: Bounce): void {
  expectSame(a.cast.lists.hits, b.cast.lists.hits)
  expectSame(a.cast.lists.valid, b.cast.lists.valid)
  expectSame(a.cast.areasM2, b.cast.areasM2)
}

test('the bounce of a pose is the same whatever pose the sitter had before', () => {
  const rigOf = (asset: Asset) => assembleRig(turned, { figure: asset })
  const used = readFigureAsset(BYTES)
  light(assembleRig(first, { figure: used }))
  const after = light(rigOf(used))
  const afresh = light(rigOf(readFigureAsset(BYTES)))
  expectSame(after.vertices, afresh.vertices)
  expectSame(after.patches, afresh.patches)
})

test('what lies inside a body goes by the pose: a bowed head hides other skin under the collar', () => {
  const asset = readFigureAsset(BYTES)
  const hidden = [first, turned].map((sitting) => {
    const scene = bounceScene(assembleRig(sitting, { figure: asset }))
    const { buried } = layOut(scene, createRayCaster(scene.bodies))
    return [...buried].find(([owner]) => owner.kind === 'part' && owner.part.name === 'skin')![1]
  })
  const count = (list: Uint8Array) => list.reduce((sum, one) => sum + one, 0)
  // Neck and chest under the clothes, and what the hair covers: a good part of the skin, in any pose.
  for (const list of hidden) expect(count(list) / list.length).toBeGreaterThan(0.3)
  expect(hidden[0]).not.toEqual(hidden[1])
})

// What the sitter's pose does not touch is taken over from the lists of the last pose; against lists cast afresh, bit for bit.
const FEW: ListQuality = { patchRays: 32, vertexRays: 4, linkEdge: 3 }
const MORE: ListQuality = { ...FEW, patchRays: 64 }
const sitterId = first.sitters[0].id
const turns: readonly [ListQuality, ReturnType<typeof firstSitting>][] = [
  [MORE, turned],
  [FEW, setSitter(turned, sitterId, { headTurnDeg: -30, headTiltDeg: 6 })],
  [FEW, setSitter(turned, sitterId, { headTurnDeg: 10, chinDeg: 10 })],
]

test('lists over those of the last pose, with more rays, fewer and as many, are those of a fresh trace', () => {
  const build = createRigBuilder({ figure: readFigureAsset(BYTES) })
  let scene = bounceScene(build(first))
  const caster = createRayCaster(scene.bodies)
  let cast = 0
  const counted: typeof caster = {
    ...caster,
    nearest(...ray) {
      cast++
      return caster.nearest(...ray)
    },
  }
  let last = createBounce(scene, caster, FEW)
  for (const [quality, sitting] of turns) {
    const rig = build(sitting)
    scene = bounceScene(rig)
    caster.update(scene.bodies)
    const fresh = createBounce(scene, caster, quality)
    cast = 0
    const over = finish(bounceSteps(scene, counted, quality, last))
    expectSameLists(over, fresh)
    const [one, other] = [over, fresh].map((bounce) => bounce.solve(rig.sources[0], DRAGGING))
    expectSame(one.patches, other.patches)
    expectSame(one.vertices, other.vertices)
    const { patchCount, lists } = over.cast
    const others = (lists.valid.length - patchCount) * lists.rays + over.receivers.vertexCount * quality.vertexRays
    expect(cast - others).toBeLessThan(patchCount * (lists.rays - 0.7 * FEW.patchRays))
    last = over
  }
})

test('nothing is taken over from a set that has changed', () => {
  const build = createRigBuilder({ figure: readFigureAsset(BYTES) })
  const before = bounceScene(build(first))
  const caster = createRayCaster(before.bodies)
  const last = createBounce(before, caster, FEW)
  const { id, centreM } = first.panels[0]
  const scene = bounceScene(build(setPanel(turned, id, { centreM: [centreM[0] + 0.3, centreM[1], centreM[2]] })))
  caster.update(scene.bodies)
  const over = finish(bounceSteps(scene, caster, FEW, last))
  expectSameLists(over, createBounce(scene, caster, FEW))
})

test('rays from a head that is held otherwise meet what a caster over all of the set meets', () => {
  const figure = readFigureAsset(BYTES)
  const build = createRigBuilder({ figure })
  let [along, others] = [0, 0]
  for (const sitting of [first, turned]) {
    const scene = bounceScene(build(sitting))
    const caster = createRayCaster(scene.bodies)
    const shots = vertexShots(scene, caster)
    for (const [body, owner] of scene.owners.entries()) {
      if (owner.kind !== 'part') continue
      for (const vertex of new Set(owner.mesh.indices.filter((_, i) => i % 23 === 0))) {
        const { start, direction, hit } = shots.from(body, vertex)(vertex % 16)
        expect(dot(direction, start.normal)).toBeGreaterThan(0)
        const truth = caster.nearest(start.point, direction)
        if (owner.part.part.headWeight[vertex] === 1) along++
        // A ray that grazes an edge may pass it by or not, as numbers are rounded.
        const isSame = hit?.bodyIndex === truth?.bodyIndex && hit?.triangle === truth?.triangle
        if (!isSame || hit?.fromBehind !== truth?.fromBehind) others++
        else if (hit && truth) expect(Math.abs(hit.distance - truth.distance)).toBeLessThan(1e-5)
      }
    }
  }
  expect(along).toBeGreaterThan(1000)
  expect(others).toBeLessThan(0.002 * along)
})
