import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { createRigBuilder, type Rig } from '../../src/rig'
import { firstSitting, setGlasses, setSitter } from '../../src/sitting'
import { distance, subtract } from '../../src/space'

const figure = readFigureAsset(new Uint8Array(readFileSync('assets/sitter.glb')))
const frameOf = ({ figures: [{ posed }] }: Rig) => posed.parts.find(({ name }) => name === 'glasses')

test('a tipped frame is the same mesh moved, glasses taken off leave the sitter as it was, other edits leave them be', () => {
  const build = createRigBuilder({ figure })
  const bare = build(firstSitting())
  expect(bare.figures[0].posed.lenses).toBeUndefined()
  const worn = setGlasses(firstSitting(), 'sitter', {})
  const rig = build(worn)
  expect(rig.figures[0].posed.parts.slice(0, -1).map(({ part }) => part)).toEqual(
    bare.figures[0].posed.parts.map(({ part }) => part),
  )
  const tipped = build(setGlasses(worn, 'sitter', { tiltDeg: 15 }))
  expect(frameOf(tipped)!.mesh.indices).toBe(frameOf(rig)!.mesh.indices)
  expect(frameOf(tipped)!.part.proxyIndices).toBe(frameOf(rig)!.part.proxyIndices)
  expect(frameOf(tipped)!.mesh.positions).not.toEqual(frameOf(rig)!.mesh.positions)
  expect(build(setGlasses(worn, 'sitter', null)).figures[0].posed.lenses).toBeUndefined()
  const toned = build(setSitter(worn, 'sitter', { skin: 'dark' }))
  expect(toned.figures[0].posed).toBe(build(worn).figures[0].posed)
})

test('a turned head takes its lenses along, at their place before the eyes', () => {
  const build = createRigBuilder({ figure })
  const at = (headTurnDeg: number) => {
    const { lenses, eyeMidpoint } = build(
      setSitter(setGlasses(firstSitting(), 'sitter', {}), 'sitter', { headTurnDeg }),
    ).figures[0].posed
    return {
      off: subtract(lenses!.left.frame.origin, eyeMidpoint),
      apart: distance(lenses!.left.frame.origin, eyeMidpoint),
    }
  }
  const [ahead, aside] = [at(0), at(40)]
  expect(aside.apart).toBeCloseTo(ahead.apart, 9)
  const azimuth = ([x, , z]: readonly number[]) => (Math.atan2(x, z) * 180) / Math.PI
  expect(azimuth(aside.off) - azimuth(ahead.off)).toBeCloseTo(40, 6)
})
