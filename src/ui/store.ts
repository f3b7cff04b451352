import { create } from 'zustand'
import type { Look } from '../rig'
import {
  type AddedSeveral,
  beforeGesture,
  EditRefused,
  firstSitting,
  goTo,
  type History,
  type Problem,
  recordOpening,
  recordStep,
  redo as redoStep,
  type Sitting,
  type StepWords,
  startHistory,
  undo as undoStep,
} from '../sitting'
import type { Vec3 } from '../space'
import { lateTwin } from './late'
import type { Asked, Contact, Judging, Pair, StepName, Wipe } from './session-types'
import type { LengthUnits } from './values'

export type { Asked, Contact, Judging, Wipe } from './session-types'

export type Theme = 'dark' | 'light'
/** What a phone shows under the picture. */
export type Page = 'plan' | 'readings' | 'controls' | 'takes' | 'more'
/** Something to tell in place, until the next edit or until it is closed. */
export interface Notice {
  readonly title: string
  readonly problems: readonly Pick<Problem, 'path' | 'expected' | 'got' | 'advice'>[]
}

/** What belongs to the person before the screen and not to the document. */
export interface Session {
  /** Id of a thing of the sitting, or 'camera', 'backdrop', 'room', 'kit'. */
  readonly selected: string | null
  /** What else is in hand with it, by id: it moves, is copied and goes together. */
  readonly also: readonly string[]
  /** What is chosen is added to what is in hand, or let go. */
  readonly several: boolean
  /** Id of the only source whose light the picture shows; null: all. */
  readonly solo: string | null
  readonly theme: Theme
  readonly units: LengthUnits
  readonly page: Page
  /** What the picture shows: the camera's frame, a crop of it, or the profile. */
  readonly look: Look
  /** The place whose half-room the page shows, by its id; null: none. */
  readonly sees: string | null
  /** Whether the picture carries the shadow edge on the face. */
  readonly outlined: boolean
  /** Whether the picture carries all meters where they are held, and not only the selected one. */
  readonly metersShown: boolean
  /** Whether the picture carries the nine places of the backdrop. */
  readonly backdropShown: boolean
  /** Whether what is out of focus is blurred in the picture. */
  readonly blurred: boolean
  /** Whether the picture shows the modelling lamps' light in place of the flash. */
  readonly byModelling: boolean
  /** How the exposure is judged: what the picture carries; null: it isn't. */
  readonly judging: Judging | null
  /** What the solver is asked for; the next edit takes it back. */
  readonly asked: Asked | null
  /** The hint beside the word Plan goes for good after the first drag. */
  readonly hintSeen: boolean
  /** A source that is dragged over the plan keeps its height, and not its angle up. */
  readonly keepsHeight: boolean
  readonly notice: Notice | null
  /** Two sets in one frame; null: no divider. */
  readonly wipe: Wipe | null
  /** Two sets whole, side by side over the page; null: none. */
  readonly pair: Pair | null
  /** What the contact sheet varies, and what its pictures have in common; null: it is shut. */
  readonly contact: Contact | null
  /** As it was shut last, for its word in the bar. */
  readonly contactBefore: Contact
  /** The page of ready sittings is open. */
  readonly choosing: boolean
  /** The set is walked round in place of its plan. */
  readonly walking: boolean
  /** The help is open. */
  readonly helping: boolean
  /** What is carried to the studio is open: sheet, link, the day itself, the device's own store. */
  readonly carrying: boolean
  /** The lessons are open, or one of their goals is tried on the working surface. */
  readonly teaching: 'shut' | 'open' | 'trying'
  /** Beginnings of ids of readings that a learner does without while a goal is tried. */
  readonly without: readonly string[]
  /** Ids of readings that a goal asks for while it is tried: they stand first. */
  readonly sought: readonly string[]
  /** Place of the reading that is pointed at, for picture and drawings to mark by its name; null: none. */
  readonly pointedAt: { readonly name: string; readonly at: Vec3 } | null
  /** Readings that stand first, by id, in the order in which they were pinned. */
  readonly pins: readonly string[]
  /** How many steps the last thing done went on; negative: so many were taken back; 0: they are told of no more. */
  readonly went: number
  /** Titles of the lessons that were passed to their end. */
  readonly lessonsDone: readonly string[]
  /** As it was opened: where a double-click puts a value back to. */
  readonly opened: Sitting
}

export interface Store {
  readonly history: History<Sitting>
  readonly session: Session
}

const start = (sitting: Sitting, session?: Partial<Session>, history = startHistory(sitting)): Store => ({
  history,
  session: {
    selected: sitting.sources[0]?.id ?? null,
    also: [],
    several: false,
    solo: null,
    theme: 'dark',
    units: 'metres',
    page: 'controls',
    look: 'camera',
    sees: null,
    outlined: false,
    metersShown: false,
    backdropShown: false,
    blurred: false,
    byModelling: false,
    judging: null,
    asked: null,
    hintSeen: false,
    keepsHeight: false,
    notice: null,
    wipe: null,
    pair: null,
    contact: null,
    contactBefore: { row: 'modifiers', equal: 'exposure' },
    choosing: false,
    walking: false,
    helping: false,
    carrying: false,
    teaching: 'shut',
    without: [],
    sought: [],
    pointedAt: null,
    pins: [],
    went: 1,
    lessonsDone: [],
    ...session,
    opened: sitting,
  },
})

/** The document's history and the session; everything else on the page is derived from it. */
export const useStore = create<Store>(() => start(firstSitting()))

export const currentSitting = (): Sitting => useStore.getState().history.present
/** The same, a paint later, beside a drawing that is under the hand (late.ts); the drawings have it as of now. */
const useShown = lateTwin(useStore)
export const useSittingNow = (): Sitting => useStore((store) => store.history.present)
export const useHistory = <T>(pick: (history: History<Sitting>) => T): T => useShown((store) => pick(store.history))
export const useSitting = (): Sitting => useHistory((history) => history.present)
/** A part of it: what shows only that is left alone while the rest moves under a hand. */
export const useSittingPart = <T>(pick: (sitting: Sitting) => T): T => useHistory((history) => pick(history.present))
export const useSession = <T>(pick: (session: Session) => T): T => useStore((store) => pick(store.session))

export const setSession = (change: Partial<Session>): void =>
  useStore.setState(({ session }) => ({ session: { ...session, ...change } }))

/** How the picture differs from what the camera has; not while takes are compared, as a still of one is by flash and sharp. */
export const pictureBy = ({ blurred, byModelling, wipe }: Session): Pick<Session, 'blurred' | 'byModelling'> => ({
  blurred: blurred && wipe === null,
  byModelling: byModelling && wipe === null,
})

/** Is the picture's light counted out: to judge the exposure, or to measure an edge? */
export const isCounted = ({ judging, look }: Session): boolean => judging !== null || look === 'edge'

/** Does something else lie over the working surface? */
export const isCovered = ({ contact, pair, choosing, helping, carrying, teaching }: Session): boolean =>
  contact !== null || pair !== null || choosing || helping || carrying || teaching === 'open'

/** The old list where the new one is no other. */
const same = <T extends readonly string[]>(now: T, before: T): T => (now.length === before.length ? before : now)

/** All that names a thing which can be selected. */
const selectable = (sitting: Sitting, id: string | null): boolean =>
  id === 'camera' ||
  id === 'room' ||
  id === 'kit' ||
  (id === 'backdrop' && sitting.backdrop !== null) ||
  [...sitting.sources, ...sitting.panels, ...sitting.objects, ...sitting.sitters, ...sitting.meterPlaces].some(
    (thing) => thing.id === id,
  )

function settle(history: History<Sitting>, session: Session, went = 1): Store {
  const kept = selectable(history.present, session.selected)
    ? session.selected
    : (history.present.sources[0]?.id ?? null)
  const also = session.also.filter((id) => id !== kept && selectable(history.present, id))
  const solo = history.present.sources.some(({ id }) => id === session.solo) ? session.solo : null
  return {
    history,
    session: { ...session, selected: kept, also: same(also, session.also), solo, notice: null, asked: null, went },
  }
}

const named = (name: string | StepWords): StepWords => (typeof name === 'string' ? { name } : name)

/**
 * One change of the sitting, named for undo. Changes with the same gesture are one step, named from its beginning to now.
 * A refused edit changes nothing and is told in place; false then.
 */
export function edit(name: StepName, change: (sitting: Sitting) => Sitting, gesture: string | null = null): boolean {
  const { history, session } = useStore.getState()
  try {
    const after = change(history.present)
    const said = typeof name === 'function' ? name(beforeGesture(history, gesture), after) : named(name)
    useStore.setState(settle(recordStep(history, said.name, after, gesture, said.inFull), session))
    return true
  } catch (error) {
    if (!(error instanceof EditRefused)) throw error
    const said = typeof name === 'function' ? 'That move' : named(name).name
    setSession({ notice: { title: `${said}: not done. The sitting is as it was.`, problems: [error.problem] } })
    return false
  }
}

/** An edit that makes a thing; the new thing is selected. */
export const editAndSelect = (name: string, change: (sitting: Sitting) => { sitting: Sitting; id: string }): void =>
  editAndHold(name, (before) => {
    const { sitting, id } = change(before)
    return { sitting, ids: [id] }
  })

/** An edit that makes things; they are in hand afterwards. */
export function editAndHold(name: string, change: (sitting: Sitting) => AddedSeveral): void {
  let made: readonly string[] = []
  const done = edit(name, (sitting) => {
    const added = change(sitting)
    made = added.ids
    return added.sitting
  })
  const [selected, ...also] = made
  if (done && selected !== undefined) setSession({ selected, also })
}

export const undo = (): void => useStore.setState(({ history, session }) => settle(undoStep(history), session, -1))
export const redo = (): void => useStore.setState(({ history, session }) => settle(redoStep(history), session))

/** To another step of the history, by its place (sitting, goTo). */
export const jump = (place: number): void =>
  useStore.setState(({ history, session }) => settle(goTo(history, place), session, place - history.past.length))

/** Opens another sitting as one step, so that undo brings the present one back. */
export function openSitting(sitting: Sitting, name: string): void {
  const { history, session } = useStore.getState()
  const next = settle(recordOpening(history, name, sitting), session)
  useStore.setState({
    ...next,
    session: {
      ...next.session,
      opened: sitting,
      selected: sitting.sources[0]?.id ?? null,
      also: [],
      wipe: null,
      pair: null,
    },
  })
}

/** What the device kept: the sitting, what it was laid over as steps to undo, and the person's settings. */
export const restore = (sitting: Sitting, session: Partial<Session>, history?: History<Sitting>): void =>
  useStore.setState(start(sitting, session, history))

/** What is told of steps that were taken back goes with the next thing in hand. */
const goneBy = ({ went }: Session): number => Math.max(0, went)
export const select = (id: string | null): void =>
  setSession({ selected: id, also: [], went: goneBy(useStore.getState().session) })

/** All that is in hand, what was chosen last first. */
export const inHand = ({ selected, also }: Pick<Session, 'selected' | 'also'>): readonly string[] =>
  selected === null ? [] : [selected, ...also]

/**
 * Takes a thing in hand: alone, or with what is in hand already (`adds`, or while several are chosen), from which a second choice lets
 * it go again. False where it was let go.
 */
export function choose(id: string, adds = false): boolean {
  const { session } = useStore.getState()
  const held = inHand(session)
  if (!adds && !session.several) {
    select(id)
    return true
  }
  const isHeld = held.includes(id) && held.length > 1
  const [selected = null, ...also] = isHeld ? held.filter((other) => other !== id) : [...new Set([id, ...held])]
  setSession({ selected, also, went: goneBy(session) })
  return !isHeld
}
