import { corneaTop, type EyeName, eyeFrame, eyeMapWay, isEyeName, type Rig } from '../rig'
import type { CasterOver } from '../space'
import type { Layout } from './layout'
import { castLists, type HitLists } from './lists'
import type { Shots } from './shots'
import type { Solution } from './solve'
import type { EyeReceivers } from './types'

/** What each eye's cornea mirrors: one row an eye, one ray a cell of its map. */
export interface EyeViews extends EyeReceivers {
  readonly lists: HitLists
}

/** In steps; yields the share done. */
export function* castEyes(rig: Rig, layout: Layout, caster: CasterOver, cells: number): Generator<number, EyeViews> {
  const eyes = rig.figures.flatMap((figure) =>
    figure.posed.parts.flatMap(({ name }) => (isEyeName(name) ? [{ figure, name }] : [])),
  )
  const shotsOf = (row: number): Shots => {
    const frame = eyeFrame(eyes[row].figure, eyes[row].name)
    const start = { point: corneaTop(frame), normal: frame.z }
    const at = (i: number) => (2 * i + 1) / cells - 1
    return (ray) => {
      const direction = eyeMapWay(frame, at(ray % cells), at(Math.floor(ray / cells)))
      return { start, direction, hit: caster.nearest(start.point, direction) }
    }
  }
  const lists = yield* castLists(eyes.length, cells * cells, shotsOf, layout, caster)
  const maps = eyes.map(({ figure, name }): { figureId: string; name: EyeName } => ({ figureId: figure.id, name }))
  return { cells, maps, lists }
}

/** B/π of what each cell shows. thrown: what has left elements otherwise than evenly; here it shows as if it had. */
export function seenInEyes({ lists: { hits } }: EyeViews, { radiosity }: Solution, thrown: Float32Array): Float32Array {
  const light = new Float32Array(3 * hits.length)
  hits.forEach((element, cell) => {
    for (let band = 0; band < 3; band++) {
      const k = 3 * element + band
      light[3 * cell + band] = (radiosity[k] + (thrown[k] ?? 0)) / Math.PI
    }
  })
  return light
}
