import type { ReactNode } from 'react'
import { differenceReasons, type SetFigures } from '../../readings'

interface FiguresProps {
  readonly name: string
  /** Of the source that is varied: how large it appears is told; null: another thing is. */
  readonly letter: string | null
  readonly figures: SetFigures | null
  /** Until the room's light is read, what depends on it is left open. */
  readonly settled: boolean
  /** Whether the reasons are told. */
  readonly isTold: boolean
  onWhy(): void
  /** What comes of it against the reference. */
  readonly children: ReactNode
}

/** What is read of a variant: the width of its shadow edge, and on demand the rest. Each line has its place before it is read. */
export function Figures({ name, letter, figures, settled, isTold, onWhy, children }: FiguresProps) {
  return (
    <>
      <Edge figures={figures} />
      {letter && <p className="read">{figures ? appears(figures, letter) : ''}</p>}
      <p className="read">{figures && settled ? light(figures) : ''}</p>
      {children}
      <button
        type="button"
        className="word under"
        aria-expanded={isTold}
        aria-label={`${isTold ? 'hide' : 'why'}: ${name}`}
        onClick={onWhy}
      >
        {isTold ? 'hide' : 'why'}
      </button>
    </>
  )
}

/** Why an edge is as wide as it is: similar triangles. */
const EDGE_LAW = 'Shadow edge = size of the source × gap from nose to cheek ÷ distance'

interface ToldProps {
  readonly name: string
  readonly letter: string | null
  readonly figures: SetFigures | null
  /** Those of the reference; null: it is the reference, or not read yet. */
  readonly against: SetFigures | null
  readonly showsEnergy: boolean
  /** The readings' own sum of its edge: '0.95 m · 31 mm / 1.0 m = 29 mm …'; null: it has none. */
  readonly sum: string | null
  onHide(): void
}

/** The reasons of one of them, at the foot of the page over what is there, so that pictures and cards keep their places. */
export function Told({ name, letter, figures, against, showsEnergy, sum, onHide }: ToldProps) {
  const reasons = figures
    ? [
        ...(sum === null ? [] : [`${EDGE_LAW}: ${sum}.`]),
        ...(against ? differenceReasons(figures, against, letter) : []),
        ...whyOf(figures, showsEnergy),
      ]
    : ['It is not read yet.']
  return (
    <section className="told" aria-label={`why: ${name}`}>
      <p className="whose">
        <b>{name}</b>
        <button type="button" className="word under" aria-label={`hide why: ${name}`} onClick={onHide}>
          hide
        </button>
      </p>
      <div className="reasons">
        {reasons.map((words) => (
          <p key={words}>{words}</p>
        ))}
      </div>
    </section>
  )
}

/** The full width, as among the readings. */
function Edge({ figures }: { figures: SetFigures | null }) {
  if (!figures) return <p className="edge">{'\u2013'} mm, reading</p>
  const { edgeMm, isFull } = figures
  if (edgeMm === null) return <p className="edge">no shadow edge on the cheek</p>
  return (
    <p className="edge">
      <span className="value">{millimetres(edgeMm)}</span> mm wide shadow edge
      {!isFull && '; wider than the nose, so no full shadow'}
    </p>
  )
}

const millimetres = (mm: number): string => (mm < 10 ? mm.toFixed(1) : mm.toFixed(0))

/** As the readings have it, across the edge; where none falls, from the near cheek, width × height. */
function appears({ edgeDeg, acrossDeg, highDeg }: SetFigures, letter: string): string {
  const degrees = (value: number) => value.toFixed(value < 2 ? 1 : 0)
  if (edgeDeg !== null) return `${letter} appears ${degrees(edgeDeg)}°\u00a0wide across\u00a0it`
  if (acrossDeg === null) return ''
  return `${letter} appears ${degrees(acrossDeg)}${highDeg === null ? '' : `\u00a0×\u00a0${degrees(highDeg)}`}°`
}

const stops = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`

/** Both against the metered side of the face. */
const light = ({ shadowStops, backdropStops }: SetFigures): string =>
  [
    shadowStops === null ? null : `nose\u00a0shadow\u00a0${stops(shadowStops)}\u00a0stops`,
    backdropStops === null ? null : `backdrop\u00a0${stops(backdropStops)}\u00a0stops`,
  ]
    .filter((part) => part !== null)
    .join(', ')

/** The figures behind the one that is shown, each with what it counts. */
function whyOf({ edgeMm, tenToNinetyMm, lossStops, energyJ }: SetFigures, showsEnergy: boolean): readonly string[] {
  const parts = [
    'Stops of shadow and backdrop say how bright they are, not how hard: against the lit cheek.',
    lossStops === null
      ? null
      : `The modifier gives ${Math.abs(lossStops).toFixed(1)} stops ${lossStops < 0 ? 'less' : 'more'} than a plain dish.`,
    energyJ === null || !showsEnergy ? null : `Its flash needs ${energyJ.toFixed(energyJ < 10 ? 1 : 0)} J.`,
    edgeMm === null ? null : 'The width of its edge is counted from full shade to full light, square to the light.',
    tenToNinetyMm === null
      ? null
      : `${millimetres(tenToNinetyMm)} mm of that lie between 10 and 90\u00a0% of the light: the part that the eye sees.`,
  ]
  return parts.filter((part) => part !== null)
}
