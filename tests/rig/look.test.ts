import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { projectToFrame } from '../../src/camera'
import { readFigureAsset } from '../../src/figure'
import { createRigBuilder, cropScale, headMiddle, type Look, lookFrom, type Rig, rigSeen } from '../../src/rig'
import { firstSitting, removeThing, type Sitting, setCamera, setSitter } from '../../src/sitting'
import { addScaled, distance, dot, normalize, subtract, type Vec3 } from '../../src/space'

const build = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })
const first = firstSitting()
const open = removeThing(first, 'panel')
const turned = (headTurnDeg: number, sitting: Sitting = first) => build(setSitter(sitting, 'sitter', { headTurnDeg }))
const rig = build(first)

/** Where a point lies in the frame, from −1 to 1 to the right and up. */
const inFrame = (of: Rig, look: Look, point: Vec3) => {
  const view = lookFrom(of, look)
  const found = projectToFrame(point, view.frame, view)
  if (!found) throw new Error('behind the lens')
  return found
}
const place = (of: Rig, crop: 'eye' | 'cheek') =>
  of.figures[0].posed.landmarks[`${crop === 'eye' ? 'pupil' : 'cheek'}${cropScale(of, crop).side}`].position

describe.each(['eye', 'cheek'] as const)('%s crop', (crop) => {
  test('has the place in its middle, seen from where the camera stands, exposed as the camera exposes', () => {
    const { x, y } = inFrame(rig, crop, place(rig, crop))
    expect(x).toBeCloseTo(0, 9)
    expect(y).toBeCloseTo(0, 9)
    const view = lookFrom(rig, crop)
    expect(view.frame.origin).toEqual(rig.view.frame.origin)
    const { frame: _, focalLengthMm: __, ...kept } = rig.view
    expect(view).toMatchObject(kept)
  })

  test('is so many pixels of a frame 1,920 high: 384 round an eye, 640 round a cheek', () => {
    const at = place(rig, crop)
    const upright = addScaled(at, rig.view.frame.y, 0.001)
    const high = (look: Look) => inFrame(rig, look, upright).y - inFrame(rig, look, at).y
    // The pupil lies 1° from the axis and the cheek 2°: turned to it, the frame is that much less foreshortened.
    expect(high(crop) / high('camera')).toBeCloseTo(1920 / (crop === 'eye' ? 384 : 640), 2)
  })

  test('tells its scale as a pinhole has it', () => {
    const at = place(rig, crop)
    const { mmPerFramePx, widthMm } = cropScale(rig, crop)
    // 105 mm on 24 × 36 mm from 1.5 m: 1.5 m · 36/105 = 514 mm over 1,920 pixels.
    const depth = dot(subtract(at, rig.view.frame.origin), rig.view.frame.z)
    expect(mmPerFramePx).toBeCloseTo((depth * 1000 * 36) / 105 / 1920, 9)
    expect(mmPerFramePx).toBeCloseTo(0.26, 1)
    const edge = addScaled(at, lookFrom(rig, crop).frame.x, -widthMm / 2000)
    expect(inFrame(rig, crop, edge).x).toBeCloseTo(1, 6)
  })

  test('is round the one that is nearer to the lens', () => {
    // A head turned to camera right shows the lens its own right side more.
    expect(cropScale(turned(30), crop).side).toBe('Right')
    expect(cropScale(turned(-30), crop).side).toBe('Left')
  })

  test('what hides what stays: points in one line of sight stay in one', () => {
    const eye = rig.view.frame.origin
    const at = rig.figures[0].posed.landmarks.noseTip.position
    const behind = addScaled(at, normalize(subtract(at, eye)), 0.3)
    const [a, b] = [at, behind].map((point) => inFrame(rig, crop, point))
    expect(a.x).toBeCloseTo(b.x, 9)
    expect(a.y).toBeCloseTo(b.y, 9)
  })
})

describe('profile', () => {
  const headOf = (of: Rig) => headMiddle(of.figures[0])
  test.each([0, 15, -40, 90])('the nose of a head turned %s° points square to the line of sight', (headTurnDeg) => {
    const of = turned(headTurnDeg, open)
    const view = lookFrom(of, 'profile')
    const level = ([x, , z]: Vec3): Vec3 => normalize([x, 0, z])
    const sight = level(subtract(headOf(of), view.frame.origin))
    expect(dot(sight, level(of.figures[0].posed.noseDirection))).toBeCloseTo(0, 9)
  })

  test('from the distance and height of the camera, and framed as it frames', () => {
    const of = turned(15, open)
    const view = lookFrom(of, 'profile')
    expect(distance(view.frame.origin, headOf(of))).toBeCloseTo(distance(of.view.frame.origin, headOf(of)), 9)
    expect(view.frame.origin[1]).toBeCloseTo(of.view.frame.origin[1], 9)
    const [a, b] = (['profile', 'camera'] as const).map((look) => inFrame(of, look, headOf(of)))
    expect(a.x).toBeCloseTo(b.x, 9)
    expect(a.y).toBeCloseTo(b.y, 9)
  })

  test('from the nearer side; from the other one where a panel stands in the way', () => {
    const side = (sitting: Sitting) => Math.sign(lookFrom(turned(15, sitting), 'profile').frame.origin[0])
    // A head turned to camera right is in profile 75° to camera left of the lens and 105° to camera right.
    expect(side(open)).toBe(-1)
    expect(side(first)).toBe(1)
  })

  test('the whole head is in it, from nose to back, as the camera has the whole width of it', () => {
    const of = turned(15, open)
    const { noseTip, backOfHead, crown, chin } = of.figures[0].posed.landmarks
    for (const { position } of [noseTip, backOfHead, crown, chin]) {
      const { x, y } = inFrame(of, 'profile', position)
      expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThan(0.9)
    }
  })

  test('a head that is in profile to the camera already is seen by the camera', () => {
    const { frame } = lookFrom(turned(90, open), 'profile')
    expect(distance(frame.origin, rig.view.frame.origin)).toBeLessThan(0.15)
  })
})

test('the camera is the rig itself, and each look one record as long as the rig stands', () => {
  expect(rigSeen(rig, 'camera')).toBe(rig)
  expect(rigSeen(rig, 'eye')).toBe(rigSeen(rig, 'eye'))
  expect(rigSeen(rig, 'eye').figures).toBe(rig.figures)
  const moved = build(setCamera(first, { focalLengthMm: 85 }))
  expect(rigSeen(moved, 'eye').view.focalLengthMm).toBeCloseTo((rigSeen(rig, 'eye').view.focalLengthMm * 85) / 105, 6)
})
