import {
  bounceScene,
  bounceSteps,
  createBounce,
  DRAGGING,
  finish,
  SETTLED,
  SETTLED_LISTS,
  TURNED,
  TURNING,
} from '../../src/bounce'
import { bodiesOf, bounceAt, directAt, type MeterScene } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import type { Rig } from '../../src/rig'
import { addScaled } from '../../src/space'
import { milliseconds, row } from './clock'

/** What an edit costs in the worker, and the meter's independent route to one of the thousands of places. */
export function benchBounce(rig: Rig, turned: readonly Rig[]): void {
  const scene = bounceScene(rig)
  const caster = createRayCaster(scene.bodies)
  const source = rig.sources[0]
  const turning = createBounce(scene, caster, TURNING)
  const { patchCount, vertexCount } = turning.receivers
  const { clusters, vertices, buriedVertices } = turning.validShares
  row('patches', patchCount, '')
  row('vertices', vertexCount, '', `${(100 * buriedVertices).toFixed(0)} % hidden`)
  row('valid rays: clusters', clusters, '')
  row('valid rays: vertices', vertices, '')
  row(
    `lists while turning, ${TURNING.patchRays} + ${TURNING.vertexRays} rays`,
    milliseconds(() => createBounce(scene, caster, TURNING), 3),
    'ms',
  )
  let last = turning
  const poses = turned.values()
  row(
    'head turned: lists over the last pose, first light',
    milliseconds(() => {
      const next = poses.next().value!
      const scene = bounceScene(next)
      caster.update(scene.bodies)
      last = finish(bounceSteps(scene, caster, TURNING, last))
      last.solve(next.sources[0], TURNED)
    }, turned.length),
    'ms',
    'bar 800',
  )
  caster.update(scene.bodies)
  row(
    `lists settled, ${SETTLED_LISTS.patchRays} + ${SETTLED_LISTS.vertexRays} rays`,
    milliseconds(() => createBounce(scene, caster, SETTLED_LISTS), 1),
    'ms',
  )
  const drag = milliseconds(() => turning.solve(source, DRAGGING))
  row('one source, 4 rays a patch (a lamp is dragged)', drag, 'ms', 'bar 40')
  row(
    'one source, 64 rays a patch (settled)',
    milliseconds(() => turning.solve(source, SETTLED)),
    'ms',
  )

  const bodies = bodiesOf(rig)
  const meter: MeterScene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
  const { position, normal } = rig.figures[0].posed.landmarks.cheekLeft
  const probe = { point: addScaled(position, normal, 5e-4), normal }
  const direct = milliseconds(() => directAt(meter, probe, 'disc'))
  const traced = milliseconds(() => bounceAt(meter, probe, 'disc', { paths: 1024 }), 3)
  row('meter: direct light at a place', direct, 'ms')
  row(
    'meter: 1,024 paths at a place',
    traced,
    'ms',
    `${((traced * vertexCount) / drag).toFixed(0)} × the lists, a vertex`,
  )
}
