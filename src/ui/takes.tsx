import { useState } from 'react'
import { keepTake, openTake, removeTake, type Sitting, setReExpose } from '../sitting'
import { Opens } from './controls/opens'
import { RE_EXPOSE } from './controls/person-sheets'
import { edit, useSitting } from './store'

type Take = Sitting['takes'][number]

/** True where the set now is what the take holds. Most records are shared; those read from a file are compared whole. */
const shows = (sitting: Sitting, take: Take): boolean => {
  const { takes: _, ...body } = sitting
  return (Object.keys(take.sitting) as (keyof typeof take.sitting)[]).every(
    (key) => body[key] === take.sitting[key] || JSON.stringify(body[key]) === JSON.stringify(take.sitting[key]),
  )
}

/** Kept states of the sitting, under the picture. */
export function Takes() {
  const sitting = useSitting()
  const [recent, setRecent] = useState<readonly string[]>([])
  const { takes } = sitting
  const show = (name: string) => {
    setRecent([name, ...recent])
    edit(`${name} shown`, (now) => openTake(now, name))
  }
  return (
    <section className="takes" aria-label="Takes">
      {takes.length > 0 && (
        <div className="kept">
          {takes.map((take) => (
            <button
              key={take.name}
              type="button"
              className="word"
              aria-pressed={shows(sitting, take)}
              onClick={() => show(take.name)}
            >
              {take.name}
            </button>
          ))}
        </div>
      )}
      <button type="button" className="word" onClick={() => edit('take kept', (now) => keepTake(now))}>
        keep
      </button>
      {takes.length > 0 && <DropTake takes={takes} />}
      {takes.length > 1 && <Compare sitting={sitting} recent={recent} />}
      <ReExpose />
    </section>
  )
}

function DropTake({ takes }: { takes: readonly Take[] }) {
  return (
    <Opens word="drop">
      {(close) =>
        takes.map(({ name }) => (
          <button
            key={name}
            type="button"
            className="word"
            onClick={() => {
              close()
              edit(`${name} dropped`, (now) => removeTake(now, name))
            }}
          >
            {name}
          </button>
        ))
      }
    </Opens>
  )
}

/** '1 | 3': the two takes shown last, each press the other one; a row of presses is one step. */
function Compare({ sitting, recent }: { sitting: Sitting; recent: readonly string[] }) {
  const { takes } = sitting
  const order = [...recent, ...takes.map(({ name }) => name).reverse()]
  const names = [...new Set(order)].filter((name) => takes.some((take) => take.name === name)).slice(0, 2)
  const [first, second] = takes.filter(({ name }) => names.includes(name))
  if (!first || !second) return null
  const next = shows(sitting, first) ? second : first
  return (
    <button
      type="button"
      className="word"
      aria-label={`compare ${first.name} and ${second.name}: show ${next.name}`}
      onClick={() => edit(`${first.name} | ${second.name}`, (now) => openTake(now, next.name), 'takes compared')}
    >
      {first.name.replace(/^take /, '')} | {second.name.replace(/^take /, '')}
    </button>
  )
}

/** What holds the exposure when the light changes. */
function ReExpose() {
  const { reExpose } = useSitting()
  return (
    <div className="right">
      <select
        className="field"
        aria-label="What is kept when the light changes"
        value={reExpose}
        onChange={(event) => {
          const chosen = RE_EXPOSE.find(({ value }) => value === event.currentTarget.value)
          if (chosen) edit(`keep ${chosen.label}`, (now) => setReExpose(now, chosen.value))
        }}
      >
        {RE_EXPOSE.map(({ value, label }) => (
          <option key={value} value={value}>
            {label}
          </option>
        ))}
      </select>
    </div>
  )
}
