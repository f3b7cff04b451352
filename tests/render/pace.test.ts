import { afterEach, expect, test, vi } from 'vitest'
import { LOOK, Pace, type Piece } from '../../src/render/pace'

/** A card that takes so long for each piece, on a clock of its own; reading back waits for it, a fence does not. */
function card(msEach: number) {
  let [now, busyUntil, reads] = [0, 0, 0]
  const gl = {
    SYNC_GPU_COMMANDS_COMPLETE: 1,
    SYNC_STATUS: 2,
    SIGNALED: 3,
    flush() {},
    isContextLost: () => false,
    fenceSync: () => ({}),
    deleteSync() {},
    getSyncParameter: () => (now >= busyUntil ? 3 : 4),
  }
  const renderer = {
    getContext: () => gl,
    readRenderTargetPixels: () => {
      reads++
      now = Math.max(now, busyUntil)
    },
  }
  vi.spyOn(performance, 'now').mockImplementation(() => now)
  function* work(pieces: readonly Piece[]): Generator<Piece, void> {
    for (const piece of pieces) {
      busyUntil = Math.max(now, busyUntil) + (piece === 'programs' ? msEach : msEach * piece.count)
      yield piece
    }
  }
  return { renderer: renderer as never, work, wait: (ms: number) => (now += ms), now: () => now, reads: () => reads }
}

afterEach(() => {
  vi.restoreAllMocks()
})

const target = () => null as never
const ROWS: Piece = { kind: 'rows', count: 8 }

test('a patient pace never stands still for work of unknown or long duration, and goes on when the card is done', () => {
  const slow = card(50)
  const pace = new Pace(slow.renderer, true)
  const round = slow.work(['programs', LOOK, ROWS, ROWS])
  let turns = 0
  while (!pace.run(round, 40, slow.now() + 40, target)) {
    const before = slow.now()
    expect(pace.run(round, 40, before + 40, target), 'while the card is busy').toBe(false)
    expect(slow.now()).toBe(before)
    slow.wait(500)
    expect(++turns).toBeLessThan(10)
  }
  expect(slow.reads()).toBe(0)
})

test('once it knows that the work is short, it waits on the spot and goes on in the same turn', () => {
  const fast = card(0.01)
  const pace = new Pace(fast.renderer, true)
  const first = fast.work([LOOK, ROWS, ROWS])
  while (!pace.run(first, 40, fast.now() + 40, target)) fast.wait(16)
  const before = fast.now()
  expect(pace.run(fast.work([LOOK, ROWS, ROWS, ROWS]), 40, before + 40, target)).toBe(true)
  expect(pace.isBusy()).toBe(false)
  expect(fast.now() - before).toBeLessThan(1)
})

test('a pace that is not patient waits for everything it was given', () => {
  const slow = card(50)
  const pace = new Pace(slow.renderer, false)
  const round = slow.work([LOOK, ROWS])
  while (!pace.run(round, 40, slow.now() + 40, target)) expect(pace.isBusy()).toBe(false)
  expect(slow.now()).toBe(50 + 8 * 50)
})

test('what is begun is not waited for, teaches nothing about its cost, and ends where too much is expected', () => {
  const one = card(1)
  const pace = new Pace(one.renderer, true)
  expect(pace.begin(one.work([LOOK]), 100), 'nothing is known of the cost').toBe(false)
  const known = one.work([LOOK, { kind: 'maps', count: 1 }, ROWS])
  while (!pace.run(known, 40, one.now() + 40, target)) one.wait(1)
  const [rows, reads, before] = [pace.rows, one.reads(), one.now()]
  expect(pace.begin(one.work([LOOK, ROWS]), 100)).toBe(true)
  expect([one.reads(), one.now()], 'no wait').toEqual([reads, before])
  expect(pace.isBusy(), 'until the card has drawn it').toBe(true)
  one.wait(500)
  expect(pace.isBusy()).toBe(false)
  expect(pace.rows).toBe(rows)
  const long = one.work([ROWS, ROWS, ROWS, ROWS])
  expect(pace.begin(long, 3)).toBe(false)
  expect([...long].length, 'the rest is left').toBe(3)
})

test('shaders to be compiled end what is begun, and the page goes on meanwhile', () => {
  const one = card(1)
  const pace = new Pace(one.renderer, true)
  const known = one.work([LOOK, { kind: 'maps', count: 1 }, ROWS])
  while (!pace.run(known, 40, one.now() + 40, target)) one.wait(1)
  const before = one.now()
  const round = one.work(['programs', LOOK])
  expect(pace.begin(round, 100)).toBe(false)
  expect([pace.isBusy(), one.now()]).toEqual([true, before])
  one.wait(800)
  expect(pace.isBusy()).toBe(false)
  expect(pace.begin(round, 100)).toBe(true)
})

test('a fence that nobody asked about for minutes tells nothing of the cost', () => {
  const one = card(50)
  const pace = new Pace(one.renderer, true)
  const turn = (waitMs: number) => {
    pace.run(one.work([{ kind: 'maps', count: pace.maps }]), 400, one.now() + 400, target)
    one.wait(waitMs)
    return pace.isBusy()
  }
  for (let i = 0; i < 4; i++) turn(300)
  const maps = pace.maps
  turn(600_000)
  expect(pace.maps).toBe(maps)
})

test('a slow card gets fewer rows at a time, but no fewer than eight; a fast one more', () => {
  for (const [msEach, isFast] of [
    [50, false],
    [0.001, true],
  ] as const) {
    const one = card(msEach)
    const pace = new Pace(one.renderer, false)
    for (let i = 0; i < 6; i++) pace.run(one.work([{ kind: 'rows', count: pace.rows }]), 40, one.now() + 40, target)
    if (isFast) expect(pace.rows).toBeGreaterThan(1000)
    else expect(pace.rows).toBe(8)
    vi.restoreAllMocks()
  }
})
