import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { bounceScene, createBounce, DRAGGING, TURNING } from '../../src/bounce'
import { layOut } from '../../src/bounce/layout'
import { readFigureAsset } from '../../src/figure'
import { createRayCaster } from '../../src/rays'
import { assembleRig, type Rig } from '../../src/rig'
import { firstSitting, setSitter } from '../../src/sitting'

const BYTES = readFileSync('assets/sitter.glb')
const first = firstSitting()
const turned = setSitter(first, first.sitters[0].id, { headTurnDeg: 40, chinDeg: -12 })
type Asset = ReturnType<typeof readFigureAsset>

const light = (rig: Rig) => {
  const scene = bounceScene(rig)
  return createBounce(scene, createRayCaster(scene.bodies), TURNING).solve(rig.sources[0], DRAGGING)
}

test('the bounce of a pose is the same whatever pose the sitter had before', () => {
  const rigOf = (asset: Asset) => assembleRig(turned, { figure: asset })
  const used = readFigureAsset(BYTES)
  light(assembleRig(first, { figure: used }))
  const after = light(rigOf(used))
  const afresh = light(rigOf(readFigureAsset(BYTES)))
  expect(after.vertices).toEqual(afresh.vertices)
  expect(after.patches).toEqual(afresh.patches)
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
