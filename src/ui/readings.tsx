import { lazy, Suspense, useEffect, useMemo, useRef, useState } from 'react'
import { type Band, type Reading, shiftWords } from '../readings'
import { keyOf } from '../rig'
import type { History, Sitting } from '../sitting'
import { arrange, firstFor } from './arrange'
import { useWide } from './controls/use-wide'
import { useDerived } from './derived'
import { explain } from './explained'
import { OtherTab } from './other-tab'
import { PictureFault, PictureWords } from './picture/picture-words'
import { setSession, useHistory, useSession, useSitting } from './store'

/** Loaded when something is told or asked. */
const NoticeView = lazy(async () => ({ default: (await import('./notice')).NoticeView }))
const ExposureNote = lazy(async () => ({ default: (await import('./takes/wipe')).ExposureNote }))
const OfNow = lazy(async () => ({ default: (await import('./takes/wipe')).OfNow }))
const WhichHalf = lazy(async () => ({ default: (await import('./takes/wipe')).WhichHalf }))
const SinceLastStep = lazy(async () => ({ default: (await import('./since')).SinceLastStep }))
const PowerSince = lazy(async () => ({ default: (await import('./since')).PowerSince }))
const Ask = lazy(async () => ({ default: (await import('./ask')).Ask }))

/** Shown before 'more' is opened: a column of them, or two by two. */
const FIRST = { column: 5, pairs: 4 }

/** More cautions than these would push the readings out of sight: then the first, the gravest, is told. */
const MOST_TOLD = 2

/** Which light meters hold at equal exposure. */
const METER = 'exposure.nearCheek.disc.light'

const isStepped = ({ past, future }: History<Sitting>): boolean => past.length + future.length > 0

/** '±0.7 stop guessed', '±3° guessed'; beside a goal, which is judged by the number itself, it is told whose: 'a real set may differ: ±5 mm, our guess'. */
const bandWords = ({ plusMinus, unit, basis }: Band, sought = false): string =>
  `${sought ? 'a real set may differ: ' : ''}±${Number(plusMinus.toPrecision(2))}${unit === '°' ? unit : ` ${unit}`}${
    sought && basis === 'guessed' ? ', our guess' : ` ${basis}`
  }`

/** '−2.5 stops', '1.0 stop'. */
const unitWords = ({ text, unit }: Reading): string =>
  unit === 'stop' && Math.abs(Number(text.replace('−', '-'))) !== 1 ? 'stops' : unit

/** '13 mm', '32°': a degree sign stands at its number. */
const toldWords = (reading: Reading): string =>
  reading.unit === '°' ? `${reading.text}°` : `${reading.text} ${unitWords(reading)}`

/** The column of sentences. A number replaces a number; nothing moves. */
export function Readings() {
  const read = useDerived((derived) => derived.read)
  const fault = useDerived((derived) => derived.fault)
  const follows = useFollows()
  const notice = useSession((session) => session.notice)
  const wiping = useSession((session) => session.wipe !== null)
  const stepped = useHistory(isStepped)
  const [all, setAll] = useState(false)
  const [asking, setAsking] = useState(false)
  // Told where there is room; elsewhere behind one word. The drawings ring the spots either way.
  const wide = useWide()
  const [opened, setOpened] = useState<boolean | null>(null)
  const cautions = read?.cautions ?? []
  const told = opened ?? (wide && cautions.length <= MOST_TOLD)
  const written = told ? cautions : wide && opened === null ? cautions.slice(0, 1) : []
  const readings = useArranged()
  const pinned = useSession((session) => session.pins.length)
  const first = Math.max(pinned, wide ? FIRST.column : FIRST.pairs)
  const shown = all ? readings : readings.slice(0, first)
  const list = useRef<HTMLUListElement>(null)
  const firstOfMore = useRef(first)
  firstOfMore.current = first
  // What comes to light lies below the column's edge: its first is brought up.
  useEffect(() => {
    if (all) list.current?.children[firstOfMore.current]?.scrollIntoView({ block: 'nearest' })
  }, [all])
  const selected = useSession((session) => session.selected)
  const column = useRef<HTMLElement>(null)
  // What it moves first stands at the top.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another thing in hand is what it is for
  useEffect(() => {
    column.current?.scrollTo({ top: 0 })
  }, [selected])
  const more = readings.length > first && (
    <button type="button" className="word" aria-expanded={all} onClick={() => setAll(!all)}>
      {all ? 'fewer' : `${readings.length - first} more readings`}
    </button>
  )
  return (
    <section className="readings" ref={column} aria-labelledby="readings-title">
      <div className="head">
        <h2 id="readings-title">
          Readings<Suspense>{wiping && <OfNow />}</Suspense>
        </h2>
        {cautions.length > 0 && (
          <button type="button" className="word under" aria-expanded={told} onClick={() => setOpened(!told)}>
            {cautions.length === 1 ? '1 caution' : `${cautions.length} cautions`}
          </button>
        )}
        <button type="button" className="word under" aria-expanded={asking} onClick={() => setAsking(!asking)}>
          ask
        </button>
        <span className="more-here">{more}</span>
        <span className="end">
          <PictureWords />
          <span className="follows">reading the light</span>
        </span>
      </div>
      <Suspense>{asking && <Ask />}</Suspense>
      <Suspense>{notice && <NoticeView notice={notice} />}</Suspense>
      <OtherTab />
      <PictureFault />
      <Suspense>
        {wiping && <WhichHalf className="caution" />}
        {wiping && <ExposureNote className="caution" />}
      </Suspense>
      {fault && <p className="caution">{fault}</p>}
      {written.map(({ id, sentence }) => (
        <p key={id} className="caution">
          {sentence}
          {!told && (
            <>
              {' '}
              <button type="button" className="word under" onClick={() => setOpened(true)}>
                {`and ${cautions.length - 1} more`}
              </button>
            </>
          )}
        </p>
      ))}
      {read === null && !fault && <p className="caution">Reading the light. Plan and controls are ready.</p>}
      <ul className="reading-list" ref={list} data-follows={follows || undefined}>
        {shown.map((reading) => (
          <ReadingView key={reading.id} reading={reading} />
        ))}
      </ul>
      <div className="foot">
        <Suspense>{stepped && <SinceLastStep />}</Suspense>
        {more && <div className="more">{more}</div>}
      </div>
      <Spoken readings={readings} settled={read?.settled ?? false} />
    </section>
  )
}

/**
 * Whether the numbers in sight may change yet: they are of a set before this one, or with the bounced light of one. The style shows it
 * after a moment only, as a hand that drags is seldom far ahead of what is read.
 */
function useFollows(): boolean {
  const sitting = useSitting()
  return useDerived(({ read }) => read !== null && (read.of !== sitting || !read.settled))
}

/** Those that the thing in hand moves first, with the selected source's, else the first one's. */
function useArranged(): readonly Reading[] {
  const read = useDerived((derived) => derived.read?.readings)
  const without = useSession((session) => session.without)
  const selected = useSession((session) => session.selected)
  const pins = useSession((session) => session.pins)
  const sought = useSession((session) => session.sought)
  const sitting = useSitting()
  const readings = useMemo(
    () => read?.filter(({ id }) => !without.some((beginning) => id.startsWith(beginning))),
    [read, without],
  )
  const { sources } = sitting
  const source = sources.find(({ id }) => id === selected) ?? sources[0]
  return useMemo(
    () => arrange(readings ?? [], source?.letter ?? '', [...sought, ...firstFor(sitting, selected)], pins),
    [readings, source?.letter, sitting, selected, pins, sought],
  )
}

/** What a sentence says first: all that two readings in a row have room for, until their 'why' is opened. */
export const firstClause = (sentence: string): string => {
  const end = sentence.search(/[:;] |\. /)
  return end < 0 ? sentence : `${sentence.slice(0, end)}.`
}

const pointAt = ({ place: { name, at } }: Reading): void => setSession({ pointedAt: at && { name, at } })

function ReadingView({ reading }: { reading: Reading }) {
  const [why, setWhy] = useState(false)
  const item = useRef<HTMLLIElement>(null)
  const long = reading.text.length > 12
  const clause = firstClause(reading.sentence)
  const pins = useSession((session) => session.pins)
  const isPinned = pins.includes(reading.id)
  const stepped = useHistory(isStepped)
  const isSought = useSession((session) => session.sought.includes(reading.id))
  const named = `${toldWords(reading)}, ${reading.place.name}`
  useEffect(() => {
    if (!why) return
    item.current?.scrollIntoView({ block: 'nearest' })
    explain(1)
    return () => explain(-1)
  }, [why])
  return (
    <li
      ref={item}
      data-opened={why || undefined}
      className="reading"
      onPointerEnter={() => pointAt(reading)}
      onPointerLeave={() => setSession({ pointedAt: null })}
      onFocus={() => pointAt(reading)}
      onBlur={() => setSession({ pointedAt: null })}
    >
      <span className={long ? 'value long' : 'value'}>
        {reading.unit === '°' ? toldWords(reading) : reading.text}
        {reading.unit && reading.unit !== '°' && <small> {unitWords(reading)}</small>}
      </span>
      <span className="band">
        {reading.id === METER && <Suspense>{stepped && <PowerSince />}</Suspense>}
        {reading.band ? bandWords(reading.band, isSought) : ''}
      </span>
      <p>
        <span className="whole">{reading.sentence}</span>
        <span className="clause">{clause}</span>{' '}
        <span className="asides">
          <button
            type="button"
            className="word under"
            aria-expanded={why}
            aria-label={`${why ? 'close' : 'why'}: ${named}`}
            onClick={() => setWhy(!why)}
          >
            {why ? 'close' : 'why'}
          </button>
          <button
            type="button"
            className="word under pin"
            aria-pressed={isPinned}
            aria-label={`${isPinned ? 'pinned' : 'pin'}: ${named}`}
            onClick={() =>
              setSession({ pins: isPinned ? pins.filter((id) => id !== reading.id) : [...pins, reading.id] })
            }
          >
            {isPinned ? 'pinned' : 'pin'}
          </button>
        </span>
      </p>
      {why && (
        <div className="why">
          <p className="filled">{reading.why.filled}</p>
          <p>{reading.why.formula}</p>
          <p>{reading.why.source}</p>
          <p>Place: {reading.place.name}.</p>
          <IfOff reading={reading} />
        </div>
      )}
    </li>
  )
}

/** What it would be with the set a little off; of words and of what says so itself there is nothing to tell. */
function IfOff({ reading }: { reading: Reading }) {
  const shifts = useDerived((derived) => derived.shifts)
  const key = useDerived((derived) => derived.rig && keyOf(derived.rig))
  const units = useSession((session) => session.units)
  if (typeof reading.value !== 'number' || reading.id.startsWith('sensitivity.')) return null
  if (!shifts) return <p>If the set is off: reading it.</p>
  const words = shiftWords(reading, shifts[reading.id], key?.letter ?? '', units)
  return words && <p>If the set is off: {words}.</p>
}

/** For a screen reader: the first two settled numbers, politely, so that a drag isn't read out step by step. */
function Spoken({ readings, settled }: { readings: readonly Reading[]; settled: boolean }) {
  const words = readings.slice(0, 2).map((reading) => `${toldWords(reading)}, ${reading.place.name}`)
  return (
    <p className="unseen" role="status" aria-live="polite">
      {settled ? words.join('; ') : ''}
    </p>
  )
}

/** On a phone, under the picture: the three readings that matter most. */
export function LiveReadings() {
  const readings = useArranged()
  const follows = useFollows()
  const sought = useSession((session) => session.sought)
  return (
    <section className="live" aria-label="First readings" data-follows={follows || undefined}>
      {readings.slice(0, 3).map((reading) => (
        <div key={reading.id}>
          <div className="value">
            {reading.unit === '°' ? toldWords(reading) : reading.text}{' '}
            {reading.unit !== '°' && <small>{unitWords(reading)}</small>}
          </div>
          <p>
            {reading.place.name}
            {reading.band ? `, ${bandWords(reading.band, sought.includes(reading.id))}` : ''}
          </p>
        </div>
      ))}
    </section>
  )
}
