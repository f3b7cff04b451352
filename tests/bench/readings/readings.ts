import { readFileSync } from 'node:fs'
import { workerData } from 'node:worker_threads'
import { arrivalsAt, bodiesOf, received } from '../../../src/meter'
import { createRayCaster } from '../../../src/rays'
import { gridSteps, takeReadings } from '../../../src/readings'
import { createRigBuilder } from '../../../src/rig'
import { moveSource, readSitting, type Sitting } from '../../../src/sitting'
import { milliseconds, row } from '../clock'
import { benchDecode } from './decode'

const figure = benchDecode()

/** Nothing stands anywhere: what is left are closed forms and quadrature. */
const NO_RAYS = { visible: () => true, nearest: () => null }
const RUNS = 40

for (const name of (workerData as { scenes: string[] }).scenes) {
  const read = readSitting(readFileSync(`scenes/${name}.sitting.json`, 'utf8'))
  if (!('sitting' in read)) throw new Error(`${name}: no sitting`)
  bench(name, read.sitting)
}

function bench(name: string, sitting: Sitting): void {
  const build = createRigBuilder({ figure })
  const caster = createRayCaster([])
  const [source] = sitting.sources
  let set = sitting
  const scene = () => {
    const rig = build(set)
    const bodies = bodiesOf(rig)
    caster.update(bodies.bodies)
    return { rig, bodies, caster }
  }
  /** As a drag has it: the first source moved by 5 mm, so that nothing of the light is known yet. */
  const step = () => {
    const [x, y, z] = set.sources[0]!.centreM
    set = moveSource(set, source!.id, [x + 0.005, y, z])
    return scene()
  }
  const best = (work: (made: ReturnType<typeof scene>) => number) => {
    const times: number[] = []
    let rays = 0
    for (let run = 0; run < RUNS; run++) {
      const made = step()
      times.push(
        milliseconds(() => {
          rays = work(made)
        }, 1),
      )
    }
    set = sitting
    times.sort((a, b) => a - b)
    return { least: times[0]!, median: times[RUNS / 2]!, rays }
  }
  const live = best((made) => takeReadings({ sitting: set, ...made }).rays)
  row(
    `${name}: the full live set, with visibility`,
    live.least,
    'ms',
    `${live.rays} rays; median ${live.median.toPrecision(3)}`,
  )
  // After the live set: where the face lies is asked by rays once a pose, and kept.
  const closed = best(({ rig, bodies }) => takeReadings({ sitting: set, rig, bodies, caster: NO_RAYS }).rays)
  const sources = sitting.sources.length
  row(`${name}: all readings but their rays, a source`, closed.least / sources, 'ms', `${sources} sources`)
  const still = scene()
  const rig = still.rig
  const bare = { rig, bodies: still.bodies, caster: NO_RAYS }
  const cheek = rig.figures[0]!.posed.landmarks.cheekLeft
  const many = 200
  const one = milliseconds(() => {
    for (let i = 0; i < many; i++)
      for (const lamp of rig.sources) received(arrivalsAt(bare, lamp, cheek.position, 'draft'), cheek.normal, 'dome')
  }, 3)
  row(`${name}: one meter reading without rays, a source`, one / many / sources, 'ms')
  let places = 0
  const made = scene()
  const grid = milliseconds(() => {
    const steps = gridSteps({ sitting, scene: made, factorStops: 0 })
    let at = steps.next()
    while (!at.done) at = steps.next()
    places = at.value.places.filter((place) => place !== null).length
  }, 3)
  row(`${name}: a grid of 1,000 places`, grid, 'ms', `${places} on the backdrop, 64 rays each and source`)
}
