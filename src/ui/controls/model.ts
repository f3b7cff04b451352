import type { Kit } from '../../kit'
import type { PlaceLandmarks, Sitting } from '../../sitting'
import type { ShownExposure } from '../desks/protocol'
import type { Quantity } from '../values'

/** The controls of one thing as plain data; the page draws them as rows, as tabs of rows, or as one tape. */
export interface ControlSheet {
  /** 'A'; and what follows it, 'key'. */
  readonly title: string
  readonly kind: string
  /** What it is made of: 'white umbrella 0.95 m'. */
  readonly what?: string
  /** 'silver inside'; null or left out: its name tells it, or it has none. */
  readonly lining?: string | null
  readonly actions: readonly ActionRow[]
  readonly groups: readonly Group[]
}

export interface Group {
  readonly id: string
  readonly title: string
  readonly rows: readonly Row[]
}

export interface NumberRow {
  readonly kind: 'number'
  readonly id: string
  readonly label: string
  /** In full, where the label alone would be said of two rows: 'aim height'. */
  readonly named?: string
  /** What else the change takes with it, for the name of the step: 'depth and shaft in proportion'. */
  readonly takesAlong?: string
  /** A box to type in and nothing to drag: for what is known once, such as a real reading. */
  readonly typedOnly?: boolean
  readonly quantity: Quantity
  readonly value: number
  /** What may be typed, and the shorter stretch that the slider shows. */
  readonly range: readonly [number, number]
  readonly usual: readonly [number, number]
  change(sitting: Sitting, value: number): Sitting
}

export interface ChoiceRow {
  readonly kind: 'choice'
  readonly id: string
  readonly label: string
  readonly named?: string
  readonly value: string
  readonly choices: readonly Choice[]
  change(sitting: Sitting, value: string): Sitting
}

interface Choice {
  readonly value: string
  readonly label: string
  /** What a list that has the room says after it. */
  readonly after?: string
}

export interface ActionRow {
  readonly kind: 'action'
  readonly id: string
  readonly label: string
  /** The name of the step for undo. */
  readonly step: string
  readonly pressed?: boolean
  change(sitting: Sitting): Sitting
}

/** A sentence among the rows. */
export interface NoteRow {
  readonly kind: 'note'
  readonly id: string
  readonly words: string
}

/** Rows behind one word, for what is seldom asked. */
export interface FoldRow {
  readonly kind: 'fold'
  readonly id: string
  readonly label: string
  readonly rows: readonly Row[]
}

/** A box of free words, such as a name. */
export interface TextRow {
  readonly kind: 'text'
  readonly id: string
  readonly label: string
  readonly value: string
  /** The name of the step for undo. */
  step(value: string): string
  change(sitting: Sitting, value: string): Sitting
}

/** A word that asks for a file. */
export interface FileRow {
  readonly kind: 'file'
  readonly id: string
  readonly label: string
  readonly accept: string
  open(file: File): void
}

export type Row = NumberRow | ChoiceRow | ActionRow | NoteRow | FoldRow | TextRow | FileRow

/** What the rows of a source need beside the document: where the sitter's eyes, cheeks and crown are. */
export interface ControlContext {
  readonly sitting: Sitting
  readonly marks: PlaceLandmarks | null
  /** What re-exposure makes of the powers; null: not read yet. */
  readonly exposure: ShownExposure | null
  /** By how much their poses have the sitters' eyes higher than at rest, metres; left out: not known yet. */
  readonly eyesRisenM?: ReadonlyMap<string, number>
  /** Where the stand of what is selected stands, in words; null or left out: it has none. */
  readonly foot?: string | null
  /** What the person owns; left out: nothing. */
  readonly kit?: Kit | undefined
}

export type NumberSpec = Omit<NumberRow, 'kind' | 'id' | 'usual'> & { readonly usual?: readonly [number, number] }
type ChoiceSpec = Omit<ChoiceRow, 'kind' | 'id' | 'choices'> & {
  readonly choices: readonly (string | Choice)[]
}

export const number = (id: string, spec: NumberSpec): NumberRow => ({ kind: 'number', id, usual: spec.range, ...spec })

export const choice = (id: string, spec: ChoiceSpec): ChoiceRow => ({
  kind: 'choice',
  id,
  ...spec,
  choices: spec.choices.map((entry) => (typeof entry === 'string' ? { value: entry, label: entry } : entry)),
})

export const action = (id: string, spec: Omit<ActionRow, 'kind' | 'id'>): ActionRow => ({ kind: 'action', id, ...spec })

export const text = (id: string, spec: Omit<TextRow, 'kind' | 'id'>): TextRow => ({ kind: 'text', id, ...spec })

export const note = (id: string, words: string): NoteRow => ({ kind: 'note', id, words })

/** Beside angles and lengths to a side, of what has sides of its own. */
export const CAMERAS_RIGHT = 'Right and left are the camera’s, as in the picture.'

export const fold = (id: string, label: string, rows: readonly Row[]): FoldRow => ({ kind: 'fold', id, label, rows })

export const group = (id: string, title: string, rows: readonly Row[]): Group => ({ id, title, rows })
