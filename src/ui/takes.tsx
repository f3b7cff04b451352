import { keepTake, openTake, removeTake, type Sitting } from '../sitting'
import { Opens } from './controls/opens'
import { edit, useSitting } from './store'

/** True where the set now is what the take holds. Records are shared, so this compares references first. */
const shows = (sitting: Sitting, take: Sitting['takes'][number]): boolean => {
  const { takes: _, ...body } = sitting
  return (Object.keys(take.sitting) as (keyof typeof take.sitting)[]).every((key) => body[key] === take.sitting[key])
}

/** Kept states of the sitting, under the picture. */
export function Takes() {
  const sitting = useSitting()
  return (
    <section className="takes" aria-label="Takes">
      {sitting.takes.map((take) => (
        <button
          key={take.name}
          type="button"
          className="word"
          aria-pressed={shows(sitting, take)}
          onClick={() => edit(`${take.name} shown`, (now) => openTake(now, take.name))}
        >
          {take.name}
        </button>
      ))}
      <button type="button" className="word" onClick={() => edit('take kept', (now) => keepTake(now))}>
        keep
      </button>
      {sitting.takes.length > 0 && (
        <Opens word="drop">
          {(close) =>
            sitting.takes.map(({ name }) => (
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
      )}
      <ReExpose />
    </section>
  )
}

const WORDS = [
  ['powers', 'powers together'],
  ['f-number', 'f-number follows'],
  ['nothing', 'equal power'],
] as const

/** What gives way when the light changes. */
function ReExpose() {
  const sitting = useSitting()
  return (
    // biome-ignore lint/a11y/useSemanticElements: three words in a row, not a fieldset
    <div className="right re-expose" role="group" aria-label="What gives way when the light changes">
      {WORDS.map(([value, word]) => (
        <button
          key={value}
          type="button"
          className="word"
          aria-pressed={sitting.reExpose === value}
          onClick={() => edit(`exposure: ${word}`, (now) => ({ ...now, reExpose: value }))}
        >
          {word}
        </button>
      ))}
    </div>
  )
}
