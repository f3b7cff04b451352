import { Fragment, type ReactNode, useEffect, useRef, useState } from 'react'
import { Over } from '../contact/over'
import { HELP_WORD } from '../openers'
import { setSession, useSession } from '../store'
import { findHelp, type HelpEntry, soughtIn } from './entries'

const TITLE = 'help-title'

/** One page of questions and answers, part of the program, with a field to find one. */
export function Help() {
  const helping = useSession((session) => session.helping)
  return helping && <HelpPage />
}

const close = (): void => {
  setSession({ helping: false })
  requestAnimationFrame(() => document.getElementById(HELP_WORD)?.focus())
}

function HelpPage() {
  const [typed, setTyped] = useState('')
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => field.current?.focus(), [])
  const found = findHelp(typed)
  return (
    <Over titled={TITLE} className="help" onClose={close}>
      <header className="contact-head">
        <h2 id={TITLE}>Help</h2>
        <input
          ref={field}
          type="search"
          className="field"
          aria-label="find in the help"
          placeholder="find"
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <p className="whereabouts" role="status">
          {found.length === 1 ? '1 answer' : `${found.length} answers`}
        </p>
        <button type="button" className="word" onClick={close}>
          close
        </button>
      </header>
      <dl>
        {found.map((entry) => (
          <Entry key={entry.asks} entry={entry} typed={typed} />
        ))}
      </dl>
      {found.length === 0 && <p className="said">Nothing has all of these words. Try fewer.</p>}
    </Over>
  )
}

function Entry({ entry: { asks, says }, typed }: { entry: HelpEntry; typed: string }) {
  return (
    <div>
      <dt>{withSought(asks, typed)}</dt>
      <dd>{withWords(says, typed)}</dd>
    </div>
  )
}

/** Words of the page stand out from the words about them. */
const withWords = (text: string, typed: string): ReactNode =>
  text
    .split(/‹([^›]+)›/)
    .map((part, i) => (i % 2 === 1 ? <b key={part}>{withSought(part, typed)}</b> : withSought(part, typed)))

/** What is sought is marked. */
const withSought = (text: string, typed: string): ReactNode =>
  soughtIn(text, typed).map((part, i) =>
    // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text stand where they stand
    i % 2 === 1 ? <mark key={i}>{part}</mark> : <Fragment key={i}>{part}</Fragment>,
  )
