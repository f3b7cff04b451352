import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { projectToFrame } from '../../src/camera'
import { readFigureAsset } from '../../src/figure'
import { assembleRig, type Rig } from '../../src/rig'
import { addObject, firstSitting, type Sitting, type TestObject } from '../../src/sitting'
import { besideSitter } from '../../src/ui/controls/free-place'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const first = firstSitting()
const rig = assembleRig(first, { figure })

const frameOf = (view: Rig['view'], p: readonly [number, number, number]) => projectToFrame(p, view.frame, view)!

function put(sitting: Sitting, kind: TestObject['kind']) {
  const added = addObject(sitting, kind)
  const placed = besideSitter(added.sitting, assembleRig(added.sitting, { figure }), added.id)
  const object = placed.objects.find(({ id }) => id === added.id)!
  const [hx, hy] =
    object.kind === 'ball' ? [object.diameterM / 2, object.diameterM / 2] : [object.widthM / 2, object.heightM / 2]
  const [x, y, z] = object.centreM
  const low = frameOf(rig.view, [x - hx, y - hy, z])
  const high = frameOf(rig.view, [x + hx, y + hy, z])
  return { placed, object, low, high }
}

test.each(['ball', 'card', 'flag-before-card'] as const)(
  'a new %s lies whole in the picture, off the sitter',
  (kind) => {
    const { object, low, high } = put(first, kind)
    expect(Math.min(low.x, low.y)).toBeGreaterThan(-1)
    expect(Math.max(high.x, high.y)).toBeLessThan(1)
    // As far from the lens as the eyes, so that it has the sitter's light: to a centimetre, as the lens looks a little down.
    expect(Math.abs(object.centreM[2] - rig.figures[0].posed.eyeMidpoint[2])).toBeLessThan(0.01)
    for (const { mesh } of rig.figures[0].posed.parts)
      for (let i = 0; i < mesh.positions.length; i += 3) {
        const { x, y } = frameOf(rig.view, [mesh.positions[i], mesh.positions[i + 1], mesh.positions[i + 2]])
        expect(x < low.x || x > high.x || y < low.y || y > high.y).toBe(true)
      }
  },
)

test('two objects do not cover one another', () => {
  const one = put(first, 'ball')
  const two = put(one.placed, 'ball')
  const apart = Math.hypot(...one.object.centreM.map((m, i) => m - two.object.centreM[i]))
  const radii = [one.object, two.object].map((object) => (object.kind === 'ball' ? object.diameterM / 2 : 0))
  expect(apart).toBeGreaterThan(radii[0] + radii[1])
})

test('where the frame is wide nothing is made smaller', () => {
  const wide = { ...first, camera: { ...first.camera, focalLengthMm: 35 } }
  const { object } = put(wide, 'ball')
  expect(object).toMatchObject({ diameterM: 0.15 })
})
