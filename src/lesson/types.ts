import { LOOKS } from '../rig'
import type { Sitting } from '../sitting'

/** What a step shows of a state: a view of the camera's, or what the cheek sees of the key from the middle of its nose shadow's edge. */
export const LESSON_LOOKS = [...LOOKS, 'sees'] as const
export type LessonLook = (typeof LESSON_LOOKS)[number]

/** A lesson as a document, version 1. Unknown fields survive at every level. Rules by number in SPEC.md. */
export interface Lesson {
  readonly format: 'halfshade.lesson'
  readonly version: 1
  readonly title: string
  /** Place in a course; left out: in none. */
  readonly number?: number | undefined
  /** The question that it answers, for whoever looks for a lesson; left out: its title has to do. */
  readonly answers?: string | undefined
  /** For the teacher: the belief that it removes, the proof that convinces. */
  readonly note: string
  readonly start: Sitting
  readonly sets: readonly LessonSet[]
  readonly steps: readonly Step[]
}

/** A state of the sitting, by name: new values at places of `start`. */
export interface LessonSet {
  readonly name: string
  readonly changes: Changes
}
export type Changes = Readonly<Record<string, unknown>>

/** A number or a word of the program: a reading of a state, or how far two states lie apart in it. */
export interface Quantity {
  /** Name of a state; left out: the set that the learner has made. */
  readonly set?: string | undefined
  /** Id of a reading. */
  readonly reading: string
  /** The value of this other state is taken off; f-numbers then give stops. */
  readonly minus?: string | undefined
}

/** Of the learner's own set it may also ask for a caution by its id: 'nothing' is asked for then. */
export interface Condition extends Quantity {
  /** What it is called before a class: 'edge of the nose shadow'. */
  readonly says?: string | undefined
  /** Bounds in the reading's unit, both included; f-numbers as such. */
  readonly from?: number | undefined
  readonly to?: number | undefined
  /** Words, one of which the reading must be. 'nothing': it does not exist. */
  readonly is?: readonly string[] | undefined
}

export interface Choice {
  readonly words: string
  /** It is right where all of them hold. */
  readonly holds: readonly Condition[]
  /** Said of who chose it where it is wrong, in place of the question's hint: the cause against that belief. */
  readonly why?: string | undefined
}

/** What a learner commits to before anything is shown. */
export type Answer =
  | { readonly kind: 'choice'; readonly choices: readonly Choice[] }
  /** Sketched: round as on the plan (0 at the lens, positive to camera right) or up as on the elevation. Degrees. */
  | { readonly kind: 'angle'; readonly plane: 'round' | 'up'; readonly of: Quantity; readonly within: number }
  /** Typed, in the reading's unit; f-numbers are judged in stops. */
  | { readonly kind: 'number'; readonly of: Quantity; readonly within: number }

/** A row of a table: a reading under a name. */
export interface Shown {
  readonly says: string
  readonly reading: string
  /** Of this state it is told how many times as much it is; left out: the reading itself. */
  readonly times?: string | undefined
}

/** Pictures of states, with numbers under them. */
interface Shows {
  readonly text: string
  /** Names of states, in order. */
  readonly sets: readonly string[]
  /** Under each picture; left out: none. */
  readonly readings?: readonly Shown[] | undefined
  /** Of each state; left out: the camera's picture. */
  readonly looks?: readonly LessonLook[] | undefined
}

export interface Question extends Shows {
  /** States whose pictures and numbers wait for the answer. */
  readonly hides: readonly string[]
  readonly answer: Answer
  /** Said of a wrong answer: what makes it so. */
  readonly hint?: string | undefined
  /** Said once it is answered, right or wrong: what else its pictures tell. */
  readonly why?: string | undefined
}

export interface PredictStep extends Question {
  readonly kind: 'predict'
}
interface Show<Kind extends string> extends Shows {
  readonly kind: Kind
  /** What this step says of the states; the program holds it against its readings. */
  readonly claims?: readonly Condition[] | undefined
}
export interface MeasureStep extends Show<'measure'> {
  /** What is typed of the pictures, and judged; left out: nothing is asked. */
  readonly answer?: Answer | undefined
  /** Said of a wrong answer: what makes it so. */
  readonly hint?: string | undefined
  /** Said once it is answered, right or wrong. */
  readonly why?: string | undefined
}
export type ShowStep = Show<'see'> | MeasureStep
export interface ExplainStep extends Show<'explain'> {
  /** Shown on demand. */
  readonly formula?: string | undefined
}
/** A goal that the learner's own set must meet, or questions of which so many must be right. */
export interface TryStep {
  readonly kind: 'try'
  readonly text: string
  /** State that the learner begins with. */
  readonly from?: string | undefined
  readonly goal?: readonly Condition[] | undefined
  /** Parts of the sitting that may be changed (parts.ts), and judged so; left out: all. */
  readonly only?: readonly string[] | undefined
  /** State that meets the goal: one way among many. */
  readonly way?: string | undefined
  /** So many times it may be judged; left out: as often as wanted. */
  readonly tries?: number | undefined
  /** Beginnings of ids of readings that the learner does without. */
  readonly without?: readonly string[] | undefined
  readonly questions?: readonly Question[] | undefined
  /** Said of a goal that is missed: what would move it. */
  readonly hint?: string | undefined
  /** Said of a goal that is met: what met it, the cause. */
  readonly why?: string | undefined
  /** So many must be right; left out: all. */
  readonly pass?: number | undefined
}
export type Step = PredictStep | ShowStep | ExplainStep | TryStep
export type StepKind = Step['kind']
export const STEP_KINDS = ['predict', 'see', 'measure', 'explain', 'try'] as const satisfies readonly StepKind[]
