import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { convexHull, planProjection, solidPoints } from '../../src/paper'
import { assembleRig, litFaceOutline, placeLandmarks, type Rig, type Surface } from '../../src/rig'
import { type Added, addPanel, addVFlat, firstSitting, type Sitting } from '../../src/sitting'
import { addScaled, type Vec3 } from '../../src/space'
import { oppositeKey } from '../../src/ui/controls/opposite-key'
import { scenes } from '../../src/ui/scenes'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const sets = [{ title: 'first', sitting: firstSitting() }, ...scenes]

type Outline = readonly (readonly [number, number])[]

const corners = ({ rect: { centre, halfU, halfV } }: Surface): Vec3[] =>
  [-1, 1].flatMap((u) => [-1, 1].map((v) => addScaled(addScaled(centre, halfU, u), halfV, v)))
const outline = (points: readonly Vec3[]): Outline => convexHull(points.map(planProjection))

const ofPanel = ({ surfaces }: Rig, id: string): Outline =>
  outline(surfaces.filter((surface) => (surface.of ?? surface.id) === id).flatMap(corners))

/** Strictly right of one side or left of another: outside. The sign of a cross product, for a ring that goes either way. */
function isInside([x, y]: readonly [number, number], ring: Outline): boolean {
  const turns = ring.map(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax)
  })
  return turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0)
}

/** Along every side of an outline, a centimetre apart at most. */
const along = (ring: Outline) =>
  ring.flatMap(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!
    const steps = Math.ceil(Math.hypot(bx - ax, by - ay) / 0.01)
    return Array.from(
      { length: steps },
      (_, k) => [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps] as const,
    )
  })

const cross = (one: Outline, other: Outline): boolean => {
  const within = (points: Outline, ring: Outline) => ring.length > 2 && points.some((point) => isInside(point, ring))
  const near = along(one).some(([x, y]) => along(other).some(([u, v]) => Math.hypot(x - u, y - v) < 0.01))
  return near || within(along(one), other) || within(along(other), one)
}

const put = (sitting: Sitting, make: (sitting: Sitting) => Added): Added => {
  const { sitting: added, id } = make(sitting)
  return { sitting: oppositeKey(added, assembleRig(added, { figure }), id), id }
}

test.each(sets)(
  '$title: a new panel and a V-flat stand across from the key and cross nothing on the plan',
  ({ sitting }) => {
    const white = put(sitting, (s) => addPanel(s, 'white'))
    const vFlat = put(white.sitting, addVFlat)
    const rig = assembleRig(vFlat.sitting, { figure })
    const [own, folded] = [ofPanel(rig, white.id), ofPanel(rig, vFlat.id)]
    const others = [
      ...sitting.panels.map(({ id }) => ofPanel(rig, id)),
      ...rig.sources.map((source) => outline([...source.gear.flatMap(solidPoints), ...litFaceOutline(source)])),
      rig.figures[0]!.posed.parts.flatMap(({ mesh: { positions } }) => {
        const points: Vec3[] = []
        for (let i = 0; i < positions.length; i += 3) points.push([positions[i]!, positions[i + 1]!, positions[i + 2]!])
        return points
      }),
    ].map((each) => (each.length > 0 && each[0]!.length === 3 ? outline(each as Vec3[]) : (each as Outline)))
    for (const other of others) {
      expect(cross(own, other)).toBe(false)
      expect(cross(folded, other)).toBe(false)
    }
    expect(cross(own, folded)).toBe(false)
    const key = rig.sources.find(({ on }) => on)!
    const panel = vFlat.sitting.panels.find(({ id }) => id === white.id)!
    // Across from the key; where that stands in the middle, at camera left.
    expect(Math.sign(panel.centreM[0])).toBe(key.frame.origin[0] < 0 ? 1 : -1)
  },
)

test.each(sets)(
  '$title: a V-flat has the nearest of its boards 0.6 to 1 m from a cheek (common practice, from memory), and not where the camera stands',
  ({ sitting }) => {
    const { sitting: added, id } = put(sitting, addVFlat)
    const rig = assembleRig(added, { figure })
    const boards = rig.surfaces
      .filter((surface) => (surface.of ?? surface.id) === id)
      .map((surface) => outline(corners(surface)))
    expect(boards.length).toBe(2)
    const { cheekLeft, cheekRight } = placeLandmarks(rig.figures[0]!)
    const to = ([x, z]: readonly [number, number]) =>
      Math.min(...boards.flatMap(along).map(([u, v]) => Math.hypot(u - x, v - z)))
    const nearest = Math.min(...[cheekLeft, cheekRight].map(([x, , z]) => to([x, z])))
    // Places are tried in steps of 15 cm: half a hand over where the room has no other.
    expect(nearest).toBeGreaterThan(0.6)
    expect(nearest).toBeLessThan(1.04)
    const [x, , z] = rig.view.frame.origin
    expect(to([x, z])).toBeGreaterThan(0.3)
  },
)
