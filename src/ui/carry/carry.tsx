import { lazy, Suspense, useEffect } from 'react'
import { setSession, useSession } from '../store'
import { watchPicture } from './present-picture'

/** Id of the word that opens it: the focus goes back there. */
export const CARRY_WORD = 'carry-word'

const CarryPage = lazy(() => import('./carry-page').then((page) => ({ default: page.CarryPage })))

/** What is carried to the studio: sheet, link, the day itself. Its parts are loaded when it is opened first. */
export function Carry() {
  const carrying = useSession((session) => session.carrying)
  useEffect(watchPicture, [])
  return (
    carrying && (
      <Suspense fallback={<p className="contact said">Loading the sheet.</p>}>
        <CarryPage onClose={close} />
      </Suspense>
    )
  )
}

const close = (): void => {
  setSession({ carrying: false })
  requestAnimationFrame(() => document.getElementById(CARRY_WORD)?.focus())
}
