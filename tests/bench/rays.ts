import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three'
import { MeshBVH, SAH } from 'three-mesh-bvh'
import { createRayCaster } from '../../src/rays'
import type { Rig } from '../../src/rig'
import { addScaled, type Body, hash32, type Vec3 } from '../../src/space'
import { milliseconds, row } from './clock'

const COUNT = 100_000

function unitVectors(count: number): readonly Vec3[] {
  return Array.from({ length: count }, (_, i) => {
    const y = 2 * (hash32(i, 0) / 2 ** 32) - 1
    const phi = 2 * Math.PI * (hash32(i, 1) / 2 ** 32)
    const r = Math.sqrt(1 - y * y)
    return [r * Math.cos(phi), y, r * Math.sin(phi)]
  })
}

/** Rays towards the head from a sphere round it: most meet it, as shadow rays of a meter on the face do. */
export function benchRays(rig: Rig): void {
  const { mesh } = rig.figures[0].posed.parts.find(({ name }) => name === 'skin')!
  const { eyeMidpoint } = rig.figures[0].posed
  const starts = unitVectors(COUNT).map((d) => addScaled(eyeMidpoint, d, 0.6))
  const aims = unitVectors(COUNT + 1).map((d) => addScaled(eyeMidpoint, d, 0.12))
  const rays = starts.map((o, i) => {
    const t = aims[i + 1]
    const size = Math.hypot(t[0] - o[0], t[1] - o[1], t[2] - o[2])
    return { o, t, d: [(t[0] - o[0]) / size, (t[1] - o[1]) / size, (t[2] - o[2]) / size] as Vec3 }
  })
  const bodies: Body[] = [{ kind: 'mesh', mesh }]
  const caster = createRayCaster(bodies)
  const nearest = milliseconds(() => {
    for (const { o, d } of rays) caster.nearest(o, d)
  })
  const visible = milliseconds(() => {
    for (const { o, t } of rays) caster.visible(o, t)
  })
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3))
  geometry.setIndex(new BufferAttribute(mesh.indices.slice(), 1))
  const tree = new MeshBVH(geometry, { strategy: SAH })
  const ray = new Ray(new Vector3(), new Vector3())
  const library = milliseconds(() => {
    for (const { o, d } of rays) {
      ray.origin.set(...o)
      ray.direction.set(...d)
      tree.raycastFirst(ray, DoubleSide)
    }
  })
  const triangles = mesh.indices.length / 3
  row(`nearest hit, skin of ${triangles} triangles`, COUNT / nearest / 1000, 'Mray/s')
  row('line of sight', COUNT / visible / 1000, 'Mray/s')
  row(
    "nearest hit by three-mesh-bvh's own query",
    COUNT / library / 1000,
    'Mray/s',
    `ratio ${(library / nearest).toFixed(2)}`,
  )
  const build = milliseconds(
    () => createRayCaster([{ kind: 'mesh', mesh: { ...mesh, indices: mesh.indices.slice() } }]),
    3,
  )
  const refit = milliseconds(() => caster.update([{ kind: 'mesh', mesh: { ...mesh } }]), 3)
  row('tree built', build, 'ms')
  row('tree refitted after a turn of the head', refit, 'ms', `ratio ${(build / refit).toFixed(1)}`)
}
