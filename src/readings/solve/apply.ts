import { moveSource, type Sitting, setBackdrop, setCamera, setHead, setPower } from '../../sitting'
import type { SolveEdit } from './types'

/** All edits of an answer, as one change of the sitting. Throws EditRefused where one cannot be done, and nothing is. */
export const applyEdits = (sitting: Sitting, edits: readonly SolveEdit[]): Sitting => edits.reduce(applied, sitting)

function applied(sitting: Sitting, edit: SolveEdit): Sitting {
  switch (edit.kind) {
    case 'power':
      return setPower(sitting, edit.sourceId, edit.powerStops)
    case 'nd':
      return setHead(sitting, edit.sourceId, { ndStops: edit.ndStops })
    case 'move':
      return moveSource(sitting, edit.sourceId, edit.centreM)
    case 'backdrop':
      return setBackdrop(sitting, { distanceM: edit.distanceM })
    case 'camera': {
      const { kind: _, ...change } = edit
      return setCamera(sitting, change)
    }
  }
}
