/**
 * A person who does anything that the page offers, by a seed: the same seed, the same hand. Through the store as the page goes
 * through it, so that what is tried is a user's action and no call that no control makes.
 */
import type { Target } from '../../src/paper'
import {
  addBackdropGrid,
  addMeterPlace,
  addObject,
  addPanel,
  addSitter,
  addSitterBehind,
  addSource,
  addVFlat,
  carriedOf,
  duplicateThings,
  keepTake,
  mirrorSet,
  type PlaceLandmarks,
  removeTake,
  removeThings,
  type Sitting,
  setNote,
  setReExpose,
  setTitle,
  writeCarried,
} from '../../src/sitting'
import { pasteThings } from '../../src/ui/clipboard'
import type { Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'
import { thingsOf } from '../../src/ui/controls/words'
import { drag, nudge, putBack } from '../../src/ui/drawing/moves'
import { together } from '../../src/ui/drawing/together'
import {
  choose,
  currentSitting,
  edit,
  editAndHold,
  editAndSelect,
  inHand,
  jump,
  redo,
  setSession,
  undo,
  useStore,
} from '../../src/ui/store'
import { showTake } from '../../src/ui/takes/take'

/** A head of plain numbers at the place of the first sitter's: only the relation to it counts here. */
export const MARKS: PlaceLandmarks = {
  eyePoint: [0, 1.2, 0],
  cheekLeft: [0.05, 1.16, 0],
  cheekRight: [-0.05, 1.16, 0],
  crown: [0, 1.32, -0.08],
  chin: [0, 1.1, 0.08],
  noseTip: [0, 1.17, 0.12],
}

/** Numbers from 0 to 1 by a seed (mulberry32). */
export function numbersFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

class Hand {
  constructor(private readonly next: () => number) {}
  number = (low: number, high: number): number => low + (high - low) * this.next()
  one<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!
  }
  sometimes = (share: number): boolean => this.next() < share
}

type Action = (hand: Hand) => void

const PLANES = [{ kind: 'plan' }, { kind: 'elevation', along: [0.6, 0.8] }] as const
const KEYS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'] as const

function anyTarget(hand: Hand): Target {
  const { sources, panels, objects, sitters, backdrop } = currentSitting()
  return hand.one<Target>([
    ...sources.flatMap(({ id }): Target[] => [
      { type: 'source', id },
      { type: 'aim', id },
    ]),
    ...panels.map(({ id }): Target => ({ type: 'panel', id })),
    ...objects.map(({ id }): Target => ({ type: 'object', id })),
    ...sitters.flatMap(({ id }): Target[] => [
      { type: 'nose', id },
      { type: 'sitter', id },
    ]),
    { type: 'camera' },
    ...(backdrop ? ([{ type: 'backdrop' }] as const) : []),
  ])
}

const others = (target: Target): readonly string[] => {
  const id = 'id' in target ? target.id : target.type
  const held = inHand(useStore.getState().session)
  return held.includes(id) ? held.filter((other) => other !== id) : []
}

function dragSomething(hand: Hand): void {
  const [target, plane, gesture] = [anyTarget(hand), hand.one(PLANES), `drag ${hand.number(0, 1e9)}`]
  const how = { snaps: hand.sometimes(0.3), keepsAngle: hand.sometimes(0.6), halfFaceM: hand.number(0, 0.6) }
  const along = others(target)
  for (let i = 0; i < 3; i++) {
    const to = [hand.number(-2, 2), plane.kind === 'plan' ? hand.number(-1, 2) : -hand.number(0.3, 2.3)] as const
    edit(
      'dragged',
      (sitting) => together(sitting, drag(sitting, target, to, plane, how, MARKS), target, along),
      gesture,
    )
  }
}

function pressArrow(hand: Hand): void {
  const [target, plane] = [anyTarget(hand), hand.one(PLANES)]
  const gesture = hand.sometimes(0.5) ? 'held' : null
  edit(
    'nudged',
    (sitting) => {
      const next = nudge(sitting, target, hand.one(KEYS), hand.sometimes(0.3), plane, MARKS)
      return next ? together(sitting, next, target, others(target)) : sitting
    },
    gesture,
  )
}

/** Rows with those behind words. */
export const unfolded = (rows: readonly Row[]): readonly Row[] =>
  rows.flatMap((row) => (row.kind === 'fold' ? unfolded(row.rows) : [row]))

/** Any row of the selected thing: a value within what may be typed, or another choice. */
function turnSomeRow(hand: Hand): void {
  const sitting = currentSitting()
  const sheet = sheetOf({ sitting, marks: MARKS, exposure: null }, useStore.getState().session.selected)
  if (!sheet) return
  const row = hand.one([...sheet.actions, ...sheet.groups.flatMap(({ rows }) => unfolded(rows))])
  if (row.kind === 'number') {
    const value = hand.sometimes(0.2) ? hand.one(row.range) : hand.number(...row.usual)
    edit(row.label, (now) => row.change(now, value), hand.sometimes(0.3) ? `slider ${row.id}` : null)
  } else if (row.kind === 'choice') {
    const { value } = hand.one(row.choices)
    edit(row.label, (now) => row.change(now, value))
  } else if (row.kind === 'action') edit(row.step, row.change)
  else if (row.kind === 'text') edit(row.step('words'), (now) => row.change(now, 'words'))
}

const ADDED: readonly ((sitting: Sitting) => { sitting: Sitting; id: string })[] = [
  addSource,
  (sitting) => addPanel(sitting, 'silver'),
  addVFlat,
  (sitting) => addObject(sitting, 'ball'),
  (sitting) => addObject(sitting, 'flag-before-card'),
  (sitting) => addMeterPlace(sitting, {}),
  (sitting) => addBackdropGrid(sitting, 3),
  addSitter,
  addSitterBehind,
]

/** As many as a set is ever asked to hold; the page offers no seventh sitter. */
function addSomething(hand: Hand): void {
  const sitting = currentSitting()
  const make = hand.one(sitting.sitters.length < 6 ? ADDED : ADDED.slice(0, -2))
  editAndSelect('added', make)
}

const ACTIONS: readonly (readonly [name: string, times: number, action: Action])[] = [
  ['drag', 4, dragSomething],
  ['arrow key', 3, pressArrow],
  ['row', 8, turnSomeRow],
  ['add', 2, addSomething],
  ['choose', 4, (hand) => void choose(hand.one(thingsOf(currentSitting())).id, hand.sometimes(0.3))],
  ['copy', 1, () => editAndHold('copied', (sitting) => duplicateThings(sitting, inHand(useStore.getState().session)))],
  ['remove', 1, () => void edit('removed', (now) => removeThings(now, inHand(useStore.getState().session)))],
  ['paste', 1, () => pasteThings(writeCarried(carriedOf(currentSitting(), inHand(useStore.getState().session))))],
  ['mirror', 1, () => void edit('mirrored', mirrorSet)],
  ['put back', 1, putSomethingBack],
  ['title', 1, (hand) => void edit('titled', (now) => setTitle(now, hand.one(['Hall', 'Ærø', ''])))],
  ['note', 1, (hand) => void edit('noted', (now) => setNote(now, hand.one(['two\nlines', ''])))],
  ['keep what', 1, (hand) => void edit('kept', (now) => setReExpose(now, hand.one(['powers', 'f-number', 'nothing'])))],
  ['keep a take', 1, () => void edit('kept', (now) => keepTake(now))],
  ['show a take', 1, (hand) => withTake(hand, (name) => edit('shown', (now) => showTake(now, name)))],
  ['drop a take', 1, (hand) => withTake(hand, (name) => edit('dropped', (now) => removeTake(now, name)))],
  ['undo', 3, undo],
  ['redo', 2, redo],
  ['history', 1, jumpSomewhere],
  ['units', 1, (hand) => setSession({ units: hand.one(['metres', 'feet'] as const) })],
]

function putSomethingBack(hand: Hand): void {
  const target = anyTarget(hand)
  const { opened } = useStore.getState().session
  edit('put back', (sitting) => putBack(sitting, opened, target))
}

function withTake(hand: Hand, action: (name: string) => void): void {
  const { takes } = currentSitting()
  if (takes.length > 0) action(hand.one(takes).name)
}

function jumpSomewhere(hand: Hand): void {
  const { past, future } = useStore.getState().history
  jump(Math.floor(hand.number(0, past.length + future.length + 0.999)))
}

const PACK = ACTIONS.flatMap((action) => Array.from({ length: action[1] }, () => action))

/** Does so many things by a seed; gives back their names, for who wants to know how it came to a fault. */
export function doRandomly(seed: number, count: number, done: string[]): void {
  const hand = new Hand(numbersFrom(seed))
  for (let i = 0; i < count; i++) {
    const [name, , action] = hand.one(PACK)
    done.push(name)
    action(hand)
  }
}
