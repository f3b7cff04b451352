import { type DragEvent, lazy, Suspense, useEffect } from 'react'
import { Bar } from './bar'
import { Carry } from './carry/carry'
import { watchClipboard } from './clipboard'
import { Contact } from './contact/contact'
import { Controls } from './controls/controls'
import { Drawings } from './drawing/drawings'
import { openFile } from './files'
import { Looks } from './looks/looks'
import { Pages } from './pages'
import { Picture } from './picture/picture'
import { LiveReadings, Readings } from './readings'
import { isCovered, redo, setSession, undo, useSession, useStore } from './store'
import { Takes } from './takes/takes'
import { WalkSoon } from './walk/soon'

/** What the first view does without is loaded when it is asked for. */
const Walk = lazy(() => import('./walk/walk'))
const Loupe = lazy(async () => ({ default: (await import('./looks/loupe')).Loupe }))
const Sees = lazy(async () => ({ default: (await import('./looks/sees')).Sees }))
const Judge = lazy(async () => ({ default: (await import('./judge/judge')).Judge }))
const PairView = lazy(async () => ({ default: (await import('./takes/pair-view')).PairView }))
const ReadySittings = lazy(async () => ({ default: (await import('./contact/ready-sittings')).ReadySittings }))
const Help = lazy(async () => ({ default: (await import('./help/help')).Help }))
const Lessons = lazy(() => import('./lesson/lessons'))

/** The working surface. The order here is the order of Tab: picture, readings, plan, elevation, controls, takes, bar. */
export function App() {
  const page = useSession((session) => session.page)
  const judging = useSession((session) => session.judging !== null)
  const walking = useSession((session) => session.walking)
  const loupe = useSession((session) => session.look === 'edge')
  const seeing = useSession((session) => session.sees !== null)
  const sees = seeing || judging || loupe
  const choosing = useSession((session) => session.choosing)
  const pair = useSession((session) => session.pair)
  const helping = useSession((session) => session.helping)
  const theme = useSession((session) => session.theme)
  const covered = useSession(isCovered)
  const teaching = useSession((session) => session.teaching)
  useEffect(() => {
    document.documentElement.dataset.theme = theme
  }, [theme])
  useEffect(() => {
    window.addEventListener('keydown', pageKeys)
    return () => window.removeEventListener('keydown', pageKeys)
  }, [])
  useEffect(watchClipboard, [])
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file may be dropped anywhere; 'open' does the same by key
    <div
      className="app"
      data-page={page}
      data-sees={sees || undefined}
      data-judging={judging || undefined}
      data-trying={teaching === 'trying' || undefined}
      data-walking={walking || undefined}
      onDragOver={(event) => event.preventDefault()}
      onDrop={drop}
    >
      <main className="desk" inert={covered}>
        <h1 className="unseen">Halfshade</h1>
        <Picture />
        <Looks />
        <LiveReadings />
        <Readings />
        <Drawings />
        <Suspense fallback={<WalkSoon />}>{walking && <Walk />}</Suspense>
        <Suspense>{seeing && <Sees />}</Suspense>
        <Suspense>{judging && <Judge />}</Suspense>
        <Suspense>{loupe && <Loupe />}</Suspense>
        <Controls />
        <Takes />
      </main>
      <Bar covered={covered} />
      <Pages covered={covered} />
      <Contact />
      <Suspense>{pair && <PairView pair={pair} />}</Suspense>
      <Suspense>{choosing && <ReadySittings />}</Suspense>
      <Suspense>{helping && <Help />}</Suspense>
      <Carry />
      <Suspense>{teaching !== 'shut' && <Lessons />}</Suspense>
    </div>
  )
}

function drop(event: DragEvent) {
  event.preventDefault()
  const file = event.dataTransfer.files[0]
  if (file) void openFile(file)
}

/** '?' for the help; Control or Command with Z; with Shift, or Y, forward again. Inside a text box they are the box's own. */
function pageKeys(event: KeyboardEvent) {
  const { target } = event
  if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) return
  const key = event.key.toLowerCase()
  if (isCovered(useStore.getState().session)) return
  if (key === '?') setSession({ helping: true })
  if (!(event.ctrlKey || event.metaKey) || (key !== 'z' && key !== 'y')) return
  event.preventDefault()
  if (key === 'y' || event.shiftKey) redo()
  else undo()
}
