import { useEffect, useMemo, useRef } from 'react'
import { asBuilt, type SetUpSheet, type SheetInput, setUpSheet } from '../../sheet'
import { FilePick } from '../file-pick'
import { openSitting, setSession, useSession } from '../store'
import { Actuals } from './actuals'
import { Before } from './day-before'
import { changeDay, type Day, type DayChange, emptyDay, loadDays, photoFrom, useDays } from './day-store'
import { measuredOf, meterWords } from './measured'
import { Part, useTold } from './part'
import { Prediction } from './prediction'
import { useSheetInput } from './printed'

/** On the day: ticks, actual numbers, a photo, and the sitting as it was built. */
export function DayPart() {
  const now = useSheetInput()
  const last = useRef<SheetInput | null>(null)
  if (now) last.current = now
  const input = now ?? last.current
  useEffect(() => void loadDays(), [])
  const days = useDays((state) => state.days)
  const says = 'Tick, tape and meter on the set. What is typed stays on this device, also without a network.'
  return (
    <Part title="On the day" says={says}>
      {input && days ? <Open input={input} /> : <p>The readings are still settling.</p>}
    </Part>
  )
}

function Open({ input }: { input: SheetInput }) {
  const sheet = useMemo(() => setUpSheet(input), [input])
  const { days, refused } = useDays()
  const day = withNamedSteps({ ...emptyDay(sheet.title), ...days?.[sheet.version] }, sheet)
  const change = (how: DayChange) => changeDay(sheet.version, sheet.title, (kept) => how(withNamedSteps(kept, sheet)))
  return (
    <>
      <Before days={days ?? {}} sheet={sheet} day={day} change={change} />
      {refused !== null && (
        <p role="alert">
          This device does not keep what is typed here ({refused}): it stays on the page. Make the sitting as built and
          save it as a file before you leave.
        </p>
      )}
      <Ticks
        title="Order of work"
        day={day}
        change={change}
        items={sheet.order.map(({ what, minutes }) => [`step.${what}`, `${what} ${minutes} min`])}
      />
      <Ticks
        title="Kit and packing"
        day={day}
        change={change}
        items={sheet.kit.map(({ id, what, count }) => [`kit.${id}`, count === 1 ? what : `${count} × ${what}`])}
      />
      <Actuals input={input} sheet={sheet} day={day} change={change} />
      <Photo day={day} change={change} look={sheet.look} />
      <Built input={input} sheet={sheet} day={day} change={change} />
    </>
  )
}

/** Steps were once ticked by their number. */
function withNamedSteps(day: Day, { order }: SetUpSheet): Day {
  const named = ([id, tick]: [string, true]): [string, true] => {
    const step = order[Number(/^step\.(\d+)$/.exec(id)?.[1] ?? -1)]
    return [step ? `step.${step.what}` : id, tick]
  }
  return { ...day, ticks: Object.fromEntries(Object.entries(day.ticks).map(named)) }
}

interface PartOfDay {
  readonly day: Day
  change(how: DayChange): void
}

function Ticks({
  title,
  items,
  day,
  change,
}: PartOfDay & { title: string; items: readonly (readonly [string, string])[] }) {
  const done = items.filter(([id]) => day.ticks[id]).length
  const tick = (id: string, on: boolean) =>
    change((now) => {
      const { [id]: _, ...others } = now.ticks
      return { ...now, ticks: on ? { ...others, [id]: true } : others }
    })
  return (
    <details className="day-list">
      <summary>
        {title}: {done} of {items.length}
      </summary>
      {items.map(([id, words]) => (
        <label key={id}>
          <input
            type="checkbox"
            checked={day.ticks[id] === true}
            onChange={(event) => tick(id, event.currentTarget.checked)}
          />
          {words}
        </label>
      ))}
    </details>
  )
}

function Photo({ day, change, look }: PartOfDay & { look: string }) {
  const [told, doing] = useTold()
  return (
    <>
      <h4>Photo beside the prediction</h4>
      <div className="day-pictures">
        <Prediction look={look} />
        {day.photo !== null && <img src={day.photo} alt="The real set, as photographed" />}
      </div>
      <div className="row">
        <FilePick
          word="attach a photo"
          accept="image/*"
          onFile={(file) =>
            doing('Reading the photo.', async () => {
              const photo = await photoFrom(file)
              change((now) => ({ ...now, photo }))
              return `${file.name} is attached.`
            })
          }
        />
        {day.photo !== null && (
          <button type="button" className="word" onClick={() => change((now) => ({ ...now, photo: null }))}>
            take it off
          </button>
        )}
      </div>
      <p role="status">{told}</p>
    </>
  )
}

function Built({ input, sheet, day, change }: PartOfDay & { input: SheetInput; sheet: SetUpSheet }) {
  const units = useSession((session) => session.units)
  const build = () => {
    const words = [meterWords(day, sheet), day.note].filter(Boolean).join('\n')
    const built = asBuilt(input, sheet.tape, measuredOf(day, sheet, input, units), words)
    if ('sitting' in built) openSitting(built.sitting, 'sitting as built')
    else
      setSession({
        notice: { title: 'The sitting as built was not made. The plan is untouched.', problems: built.problems },
        page: 'readings',
      })
    setSession({ carrying: false })
  }
  return (
    <>
      <h4>As built</h4>
      <label className="day-note">
        What was changed
        <textarea
          className="field"
          rows={3}
          value={day.note}
          onChange={(event) => {
            const note = event.currentTarget.value
            change((now) => ({ ...now, note }))
          }}
        />
      </label>
      <button type="button" className="word under" onClick={build}>
        make it a sitting
      </button>
      <p>With what was measured and set; the plan stays in it as a take, and undo takes it back.</p>
    </>
  )
}
