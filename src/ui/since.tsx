import { useLayoutEffect, useRef } from 'react'
import { lastChange, stepTold } from './changed'
import { useDerived } from './derived'
import { isAnotherDocument } from './desks/another-set'
import { useHistory, useSession } from './store'

/** What the last step changed for the eye, once both sets are read; while they are not, its line is kept. */
export function SinceLastStep() {
  const { step, changed, isRead } = useLastChange()
  // Of what was taken back the line tells what stands again.
  const isBack = useSession((session) => session.went < 0)
  const note = useRef<HTMLParagraphElement>(null)
  // It lies over the end of the readings, so that none of them moves: what it covers is not shown in part.
  useLayoutEffect(() => {
    const column = note.current?.closest<HTMLElement>('.readings')
    column?.style.setProperty('--note', `${note.current?.offsetHeight ?? 0}px`)
    return () => void column?.style.removeProperty('--note')
  })
  if (!step) return null
  return (
    <p className="since" ref={note}>
      <b>
        {changed?.step ?? step.name}
        {isBack && changed ? '. Now' : ''}:
      </b>{' '}
      {changed ? changed.words : isRead ? NOT_READ : 'reading what it changes'}.
    </p>
  )
}

/** Beside the meter's figure, which stays at equal exposure: by how much the power followed in the last step. */
export function PowerSince() {
  const power = useLastChange().changed?.power
  return power ? <b className="power-since">{power}</b> : null
}

function useLastChange() {
  const history = useHistory((all) => all)
  const selected = useSession((session) => session.selected)
  const went = useSession((session) => session.went)
  const isRead = useDerived(({ read }) => read?.settled === true && read.of === history.present)
  const told = stepTold(history, went)
  const step = told && !isAnotherDocument(told.state, history.present) ? told : undefined
  return { step, isRead, changed: step && isRead ? lastChange(history, selected, went) : null }
}

/** A hand may go on before the light of where it was has been read. */
const NOT_READ = 'no comparison: the step before it went by too quickly for its light to be read'
