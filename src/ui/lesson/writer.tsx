import '../look/writer.css'
import { type KeyboardEvent, useState } from 'react'
import { addStep, dropSet, keepSet, type Lesson, readingName, retitleLesson, STEP_KINDS, sittingOf } from '../../lesson'
import { type History, redoName, undoName } from '../../sitting'
import { Over } from '../contact/over'
import { useDerived } from '../derived'
import { FilePick } from '../file-pick'
import { readText } from '../read-file'
import { currentSitting, openSitting } from '../store'
import { beginDraft, draftNow, editDraft, redoDraft, saveDraft, takeDraft, undoDraft } from './draft'
import { closeLessons, setLesson, startLesson, useLesson } from './lesson-store'
import { TextPen } from './pens'
import { StepPen } from './step-pen'

const TITLE = 'writer-title'

/** The desk at which a lesson is written, without code: states from the working surface, steps, what is hidden and judged. */
export function Writer() {
  const draft = useLesson((state) => state.draft)
  const fault = useLesson((state) => state.fault)
  const [begun] = useState(draftNow)
  return <Desk history={draft ?? begun} fault={fault} />
}

/** Inside a text box the box's own undo is left alone. */
function undoKeys(event: KeyboardEvent): void {
  const { target } = event
  if (!(event.ctrlKey || event.metaKey) || target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)
    return
  const key = event.key.toLowerCase()
  if (key !== 'z' && key !== 'y') return
  event.preventDefault()
  if (key === 'y' || event.shiftKey) redoDraft()
  else undoDraft()
}

function Desk({ history, fault }: { history: History<Lesson>; fault: string | null }) {
  const lesson = history.present
  const [back, on] = [undoName(history), redoName(history)]
  const first = useDerived((derived) => derived.read?.readings[0])
  return (
    <Over titled={TITLE} className="lesson writer" onKeys={undoKeys} onClose={closeLessons}>
      <header className="contact-head">
        <h2 id={TITLE}>Write a lesson</h2>
        <p className="whereabouts">Close this page to change the set; come back to keep it as a state.</p>
        <button type="button" className="word" onClick={beginDraft}>
          new
        </button>
        <button type="button" className="word" disabled={back === null} onClick={undoDraft}>
          undo{back !== null && `: ${back}`}
        </button>
        <button type="button" className="word" disabled={on === null} onClick={redoDraft}>
          redo{on !== null && `: ${on}`}
        </button>
        <FilePick
          word="open one to change"
          accept=".json,application/json"
          onFile={(file) => void readText(file, takeDraft, (fault) => setLesson({ fault }))}
        />
        <button type="button" className="word" onClick={saveDraft}>
          save as a file
        </button>
        <button type="button" className="word" disabled={lesson.steps.length === 0} onClick={() => startLesson(lesson)}>
          take it
        </button>
        <button type="button" className="word" onClick={() => setLesson({ view: 'list', fault: null })}>
          all lessons
        </button>
        <button type="button" className="word" onClick={closeLessons}>
          close
        </button>
      </header>
      {fault && (
        <p className="said" role="alert">
          {fault}
        </p>
      )}
      <div className="desk-of-lesson">
        <section>
          <TextPen
            name="title"
            value={lesson.title}
            onText={(title) => title.trim() !== '' && editDraft('title', (l) => retitleLesson(l, { title }))}
          />
          <TextPen
            name="question that it answers, under its title in the list"
            value={lesson.answers ?? ''}
            onText={(answers) => editDraft('question', (l) => retitleLesson(l, { answers }))}
          />
          <TextPen
            name="note for the teacher"
            long
            value={lesson.note}
            onText={(note) => editDraft('note', (l) => retitleLesson(l, { note }))}
          />
          <States lesson={lesson} />
        </section>
        <section>
          {lesson.steps.map((step, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a step is known by its place
            <StepPen key={`${i} ${step.kind}`} lesson={lesson} step={step} index={i} />
          ))}
          <p className="add-step">
            add a step:{' '}
            {STEP_KINDS.map((kind) => (
              <button
                key={kind}
                type="button"
                className="word under"
                onClick={() =>
                  editDraft(`${kind} added`, (l) =>
                    addStep(l, kind, first?.id ?? 'exposure.nearCheek.disc.light', first && readingName(first)),
                  )
                }
              >
                {kind}
              </button>
            ))}
          </p>
        </section>
      </div>
    </Over>
  )
}

/** States of the lesson's sitting, and the way to keep the present set as one. */
function States({ lesson }: { lesson: Lesson }) {
  const [name, setName] = useState('')
  return (
    <div className="states">
      <h3>States of the set</h3>
      <ul>
        {lesson.sets.map((set) => (
          <li key={set.name}>
            <b>{set.name}</b> <span>{changedWords(Object.keys(set.changes).length)}</span>
            <button
              type="button"
              className="word under"
              aria-label={`show ${set.name} on the working surface`}
              onClick={() => {
                openSitting(sittingOf(lesson, set.name)!, `state ${set.name}`)
                closeLessons()
              }}
            >
              show
            </button>
            <button
              type="button"
              className="word under"
              aria-label={`drop ${set.name}`}
              disabled={lesson.sets.length === 1}
              onClick={() => editDraft(`${set.name} dropped`, (l) => dropSet(l, set.name))}
            >
              drop
            </button>
          </li>
        ))}
      </ul>
      <form
        className="pens"
        onSubmit={(event) => {
          event.preventDefault()
          if (editDraft(`${name.trim()} kept`, (l) => keepSet(l, name.trim(), currentSitting()))) setName('')
        }}
      >
        <label className="pen">
          <span>keep the present set as</span>
          <input className="field" value={name} onChange={(event) => setName(event.currentTarget.value)} />
        </label>
        <button type="submit" className="word under" disabled={name.trim() === ''}>
          keep
        </button>
      </form>
    </div>
  )
}

const changedWords = (count: number): string =>
  count === 0 ? 'as the lesson begins' : count === 1 ? '1 value differs' : `${count} values differ`
