import { lazy, Suspense, useEffect, useState } from 'react'
import { keepTake, removeTake, setReExpose } from '../../sitting'
import { CompareWord } from '../contact/ways-in'
import { Opens } from '../controls/opens'
import { RE_EXPOSE } from '../controls/person-sheets'
import { useDerived } from '../derived'
import { currentSitting, edit, useSession, useSitting, useSittingPart } from '../store'
import { useTakePictures, watchTakes } from './pictures'
import { pictureKey, shows, showTake, type Take, WAYS_TO_COMPARE } from './take'

/** Loaded with the first take. */
const Compare = lazy(async () => ({ default: (await import('./compare')).Compare }))
const DrawThumbs = lazy(async () => ({ default: (await import('./draw-thumbs')).DrawThumbs }))
const ExposureNote = lazy(async () => ({ default: (await import('./wipe')).ExposureNote }))

/** Kept states of the sitting, under the picture. */
export function Takes() {
  const sitting = useSitting()
  const [recent, setRecent] = useState<readonly string[]>([])
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  // Then the takes are chosen on the picture, and the words have room.
  const wiping = useSession((session) => session.wipe !== null)
  const { takes } = sitting
  // Of takes there is nothing to compare yet: then the word leads to the contact sheet.
  const isComparable = takes.length > 1 || takes.some((take) => !shows(sitting, take))
  useEffect(watchTakes, [])
  const show = (name: string) => {
    setRecent([name, ...recent])
    edit(`${name} shown`, (now) => showTake(now, name))
  }
  return (
    <section className="takes" aria-label="Takes">
      {/* First, so that it keeps its place as takes come. */}
      <button type="button" className="word keep" title="keeps the set as it now stands" onClick={keep}>
        {takes.length === 0 ? 'keep as take 1' : 'new take'}
      </button>
      {takes.length > 0 && (
        <div className="kept">
          {takes.map((take) => (
            <button
              key={take.name}
              type="button"
              className={drawn ? 'word take' : 'word'}
              aria-label={take.name}
              title={take.name}
              aria-pressed={shows(sitting, take)}
              onClick={() => show(take.name)}
            >
              {drawn && <Thumb take={take} />}
              <span>{take.name}</span>
            </button>
          ))}
        </div>
      )}
      <div className="words">
        <Suspense>{(takes.length > 0 || wiping) && <Compare sitting={sitting} recent={recent} />}</Suspense>
        {takes.length > 0 && !wiping && <DropTake takes={takes} />}
        {!isComparable && <CompareWord />}
      </div>
      <Suspense>{takes.length > 0 && drawn && <DrawThumbs />}</Suspense>
      <ReExpose />
      <Suspense>{wiping && <ExposureNote className="exposed" />}</Suspense>
      {/* Where the readings, which tell it as a take is kept, are on another page. */}
      {takes.length > 0 && isComparable && !wiping && <p className="exposed">{`${WAYS_TO_COMPARE}.`}</p>}
    </section>
  )
}

/** The step is named after the take that it makes. */
function keep(): void {
  const kept = keepTake(currentSitting())
  edit(`${kept.takes.at(-1)?.name} kept`, () => kept)
}

/** The take as it was last pictured; until then its frame in a plain tone. */
function Thumb({ take }: { take: Take }) {
  const url = useTakePictures(({ thumbs }) => thumbs[pictureKey(take)])
  const { sensorWidthMm, sensorHeightMm } = take.sitting.camera
  const style = { aspectRatio: `${sensorWidthMm} / ${sensorHeightMm}` }
  return url ? <img src={url} alt="" style={style} /> : <span className="no-thumb" style={style} />
}

function DropTake({ takes }: { takes: readonly Take[] }) {
  return (
    <Opens word="delete">
      {(close) =>
        takes.map(({ name }) => (
          <button
            key={name}
            type="button"
            className="word"
            onClick={() => {
              close()
              edit(`${name} deleted`, (now) => removeTake(now, name))
            }}
          >
            {name}
          </button>
        ))
      }
    </Opens>
  )
}

/** What holds the exposure when the light changes. */
function ReExpose() {
  const reExpose = useSittingPart((sitting) => sitting.reExpose)
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
