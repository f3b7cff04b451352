/** In the browser: measures PictureRenderer by itself. run.mjs calls what stands on window.bench, one measure a call. */
import type { FigureAsset } from '../../../src/figure'
import { describeSupport } from '../../../src/render'
import {
  type Convergence,
  type ConvergenceOrder,
  converge,
  errorInTime,
  firstMisses,
  type TimedOrder,
  timeSamples,
} from './convergence'
import { type LampName, mattStudio } from './matt-studio'
import { countMemory, heldMemory, type MemoryRow } from './memory'
import {
  headMoves,
  lampMoves,
  type MoveOrder,
  type MoveSpread,
  movePasses,
  timeMoves,
  timeRecombination,
} from './moves'
import { type PassName, type PassTime, passTimer } from './passes'
import type { Spread } from './statistics.mjs'
import { Easel, finish, loadFigure, openStudio, type Studio, startAgain } from './studio'

countMemory()

let figure: FigureAsset
let easel: Easel
const studios = new Map<string, Studio>()

function studio(name: string): Studio {
  const known = studios.get(name) ?? openStudio(name, figure)
  studios.set(name, known)
  return known
}

const bench = {
  async open(figureUrl: string, width: number, height: number): Promise<string | null> {
    const missing = describeSupport(document.createElement('canvas').getContext('webgl2'))
    if (missing) return missing
    figure = await loadFigure(figureUrl)
    easel = new Easel(width, height)
    return null
  },

  triangles: () =>
    studio('notice-board')
      .rig.figures.flatMap(({ posed }) => posed.parts)
      .reduce((sum, { mesh }) => sum + mesh.indices.length / 3, 0),

  lamp(name: string, order: MoveOrder): MoveSpread {
    const it = studio(name)
    return timeMoves(easel, it, lampMoves(it.sitting, it.sitting.sources[0].id), order)
  },

  head(name: string, order: MoveOrder): MoveSpread {
    const it = studio(name)
    return timeMoves(easel, it, headMoves(it.sitting), order)
  },

  passes(name: string, what: 'lamp' | 'head', order: MoveOrder) {
    const it = studio(name)
    const moves = what === 'lamp' ? lampMoves(it.sitting, it.sitting.sources[0].id) : headMoves(it.sitting)
    return movePasses(easel, it, moves, order)
  },

  recombination: (name: string, repeats: number): Promise<Spread> => timeRecombination(easel, studio(name), repeats),

  scene: (name: string, order: ConvergenceOrder): Promise<Convergence> => converge(easel, studio(name), order),

  timed: (name: string, order: TimedOrder) => errorInTime(easel, studio(name), order),

  first(name: string, reference: number) {
    const it = studio(name)
    return firstMisses(easel, it, it.build(headMoves(it.sitting)(3)), reference)
  },

  samples: (name: string, samples: number, repeats: number): Promise<number> =>
    timeSamples(easel, studio(name), samples, repeats),

  matt: (lampName: LampName, order: ConvergenceOrder): Promise<Convergence> =>
    converge(easel, { rig: mattStudio(figure, lampName) }, order),

  /** What the textures take while a scene is drawn, and with what every draw call takes on the card, for one batch. */
  async batch(
    name: string,
    batches: number,
  ): Promise<{
    readonly memory: readonly MemoryRow[]
    readonly passes: Partial<Record<PassName, PassTime>> | null
    readonly samples: number
  }> {
    const own = new Easel(easel.width, easel.height)
    const { rig, indirect } = studio(name)
    const before = heldMemory()[0].mib
    const renderer = own.renderer(16 * batches)
    renderer.setRig(rig)
    renderer.setIndirect(indirect.lights, indirect.receivers)
    await finish(renderer)
    const memory = [...heldMemory(), { what: 'held before by the empty page', count: 1, mib: before }]
    startAgain(renderer, rig)
    own.wait()
    const timer = passTimer(own.gl)
    await finish(renderer)
    own.wait()
    const passes = timer && (await timer.take())
    renderer.dispose()
    own.dispose()
    return { memory, passes, samples: 16 * batches * rig.sources.length }
  },
}

export type Bench = typeof bench
Object.assign(window, { bench, ready: true })
