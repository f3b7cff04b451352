import type { PictureRenderer } from '../../../src/render'
import { moveSource, type Sitting, setSitter } from '../../../src/sitting'
import { add, radians, rotateAbout, subtract, type Vec3 } from '../../../src/space'
import { type PassName, type PassTime, passTimer } from './passes'
import { type Spread, spreadOf } from './statistics.mjs'
import { Easel, recombinationOf, type Studio } from './studio'

/** One change of the set, from the edit to a picture that is really drawn, ms. */
export interface Move {
  readonly all: number
  /** Edit and rig, and for a turned head its pose: the page's own thread. */
  readonly rig: number
  /** What the renderer does at once: geometry, occluders. */
  readonly set: number
  /** Samples, recombination and the wait for the last pixel. */
  readonly draw: number
}

export interface MoveSpread {
  readonly all: Spread
  readonly rig: Spread
  readonly set: Spread
  readonly draw: Spread
}

/** One turn of the page's engine while a hand moves something. */
const PAGE_BUDGET_MS = 12
const LONG_MS = 1e4

export interface MoveOrder {
  readonly moves: number
  /** Moves before anything counts: programs are compiled, memory is touched. */
  readonly warmUp: number
  readonly paced: boolean
  /** Each source drawn by itself, however many start together. */
  readonly apart?: boolean
}

/** A source that goes round its aim by a degree or so a move, as under a hand. */
export function lampMoves(sitting: Sitting, id: string): (move: number) => Sitting {
  const { centreM, aimM } = sitting.sources.find((source) => source.id === id)!
  return (move) => {
    const turned: Vec3 = rotateAbout(subtract(centreM, aimM), [0, 1, 0], radians(20 * Math.sin(0.13 * move + 0.1)))
    return moveSource(sitting, id, add(aimM, turned))
  }
}

export function headMoves(sitting: Sitting): (move: number) => Sitting {
  const [{ id, headTurnDeg }] = sitting.sitters
  return (move) => setSitter(sitting, id, { headTurnDeg: headTurnDeg + 20 * Math.sin(0.13 * move + 0.1) })
}

/**
 * moves changes, each drawn to its first sixteen samples of every source that it restarts. paced: in the turns of
 * 12 ms that the page's engine takes, so that a turn may draw more than the sixteen; else exactly sixteen at one go.
 */
export function timeMoves(
  easel: Easel,
  studio: Studio,
  sittingAt: (move: number) => Sitting,
  { moves, warmUp, paced, apart = false }: MoveOrder,
): MoveSpread {
  const renderer = easel.renderer(paced ? 512 : 16)
  renderer.setRig(studio.rig)
  renderer.setIndirect(studio.indirect.lights, studio.indirect.receivers)
  // Each source's own layer too: as under a hand that begins when all is drawn.
  drawFirst(renderer, paced)
  const measured: Move[] = []
  for (let move = -warmUp; move < moves; move++) {
    const start = performance.now()
    const rig = studio.build(sittingAt(move))
    const built = performance.now()
    const how = recombinationOf(rig)
    renderer.setRig(rig, true, apart ? null : how)
    const set = performance.now()
    drawFirst(renderer, paced)
    renderer.recombine(how)
    easel.wait()
    const end = performance.now()
    if (move >= 0) measured.push({ all: end - start, rig: built - start, set: set - built, draw: end - set })
  }
  renderer.dispose()
  const spread = (part: keyof Move) => spreadOf(measured.map((move) => move[part]))
  return { all: spread('all'), rig: spread('rig'), set: spread('set'), draw: spread('draw') }
}

function drawFirst(renderer: PictureRenderer, paced: boolean): void {
  do renderer.step(paced ? PAGE_BUDGET_MS : LONG_MS)
  while (renderer.isWaiting)
}

/** What every draw call of a move takes on the card, ms a move, by what it draws into; null: no timer queries here. */
export async function movePasses(
  size: { readonly width: number; readonly height: number },
  studio: Studio,
  sittingAt: (move: number) => Sitting,
  { moves, warmUp, apart = false }: MoveOrder,
): Promise<Partial<Record<PassName, PassTime>> | null> {
  const easel = new Easel(size.width, size.height)
  const timer = passTimer(easel.gl)
  const renderer = easel.renderer(16)
  renderer.setRig(studio.rig)
  renderer.setIndirect(studio.indirect.lights, studio.indirect.receivers)
  drawFirst(renderer, false)
  for (let move = -warmUp; timer && move < moves; move++) {
    if (move === 0) await timer.take()
    const rig = studio.build(sittingAt(move))
    renderer.setRig(rig, true, apart ? null : recombinationOf(rig))
    drawFirst(renderer, false)
    renderer.recombine(recombinationOf(rig))
    easel.wait()
  }
  const sums = timer && (await timer.take())
  renderer.dispose()
  easel.dispose()
  if (!sums) return null
  const each = (of: PassTime | undefined) => of && { draws: of.draws / moves, ms: of.ms / moves }
  return Object.fromEntries(Object.entries(sums).map(([name, of]) => [name, each(of)]))
}

/** A slider of power: nothing but the sum of the layers and the wait for it, ms. */
export async function timeRecombination(easel: Easel, studio: Studio, repeats: number): Promise<Spread> {
  const renderer = easel.renderer(16)
  renderer.setRig(studio.rig)
  drawFirst(renderer, false)
  const times: number[] = []
  for (let repeat = -5; repeat < repeats; repeat++) {
    const start = performance.now()
    renderer.recombine(recombinationOf(studio.rig, 1 + 0.01 * repeat))
    easel.wait()
    if (repeat >= 0) times.push(performance.now() - start)
  }
  renderer.dispose()
  return spreadOf(times)
}
