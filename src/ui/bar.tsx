import { lazy, Suspense } from 'react'
import { redoInFull, redoName, undoInFull, undoName } from '../sitting'
import { CARRY_WORD } from './carry/carry'
import { FilePick } from './file-pick'
import { openFile, saveFile } from './files'
import { LAMP_FILES } from './lamp-names'
import { LESSONS_WORD } from './lesson/word'
import { Naming } from './naming'
import { UpdateWord } from './offline/offline'
import { CONTACT_WORD, HELP_WORD, SITTINGS_WORD } from './openers'
import { fillScreen } from './picture/full-screen'
import { redo, setSession, undo, useHistory, useSession } from './store'

/** Loaded with the first step. */
const HistoryList = lazy(async () => ({ default: (await import('./history-list')).HistoryList }))

/** The bar: title, undo and redo with the step named, sittings, file, and the person's own settings. */
export function Bar({ covered }: { covered: boolean }) {
  const back = useHistory(undoName)
  const forth = useHistory(redoName)
  const backInFull = useHistory(undoInFull)
  const forthInFull = useHistory(redoInFull)
  const units = useSession((session) => session.units)
  const theme = useSession((session) => session.theme)
  const contactBefore = useSession((session) => session.contactBefore)
  return (
    <header className="bar" inert={covered}>
      <b>Halfshade</b>
      <Naming />
      <Step word="undo" of={back} inFull={backInFull} onClick={undo} />
      <Step word="redo" of={forth} inFull={forthInFull} onClick={redo} />
      <Suspense>{(back ?? forth) !== null && <HistoryList />}</Suspense>
      {back !== null && (
        <span className="last" title={backInFull ?? back}>
          {back}
        </span>
      )}
      <div className="right">
        <UpdateWord />
        <button id={SITTINGS_WORD} type="button" className="word" onClick={() => setSession({ choosing: true })}>
          sittings
        </button>
        <button id={LESSONS_WORD} type="button" className="word" onClick={() => setSession({ teaching: 'open' })}>
          lessons
        </button>
        <button id={CONTACT_WORD} type="button" className="word" onClick={() => setSession({ contact: contactBefore })}>
          contact sheet
        </button>
        <button id={CARRY_WORD} type="button" className="word group-end" onClick={() => setSession({ carrying: true })}>
          carry<span> and print</span>
        </button>
        <FilePick
          word="open"
          named="open a sitting, a picture that carries one, or a lamp of IES or EULUMDAT"
          accept={`.json,application/json,image/png,${LAMP_FILES}`}
          onFile={(file) => void openFile(file)}
        />
        <button type="button" className="word group-end" onClick={saveFile}>
          save
        </button>
        <button type="button" className="word" onClick={() => void fillScreen()}>
          full screen
        </button>
        <button
          type="button"
          className="word"
          aria-label={`lengths in ${units}: change to ${units === 'metres' ? 'feet' : 'metres'}`}
          onClick={() => setSession({ units: units === 'metres' ? 'feet' : 'metres' })}
        >
          {units}
        </button>
        <button
          type="button"
          className="word"
          onClick={() => setSession({ theme: theme === 'dark' ? 'light' : 'dark' })}
        >
          {theme === 'dark' ? 'bright page' : 'dark page'}
        </button>
        <button id={HELP_WORD} type="button" className="word" onClick={() => setSession({ helping: true })}>
          help
        </button>
      </div>
    </header>
  )
}

interface StepProps {
  readonly word: string
  readonly of: string | null
  readonly inFull: string | null
  onClick(): void
}

/** Its word keeps its place whatever there is to take back, so that it can be pressed again and again. of: the step by its name, and in full; null: there is none. */
function Step({ word, of, inFull, onClick }: StepProps) {
  const whole = of === null ? word : `${word}: ${of}`
  return (
    <button
      type="button"
      className="word step"
      title={inFull ?? undefined}
      aria-label={whole}
      disabled={of === null}
      onClick={onClick}
    >
      {word}
      {of !== null && <i>: </i>}
      {of !== null && <span>{of}</span>}
    </button>
  )
}
