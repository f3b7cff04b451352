import { useMemo, useRef } from 'react'
import type { ExplainStep, Step } from '../../lesson'
import { type CauseDrawing, type CauseSeen, drawEdgeCause } from '../../paper'
import type { Sitting } from '../../sitting'
import { ShapeView } from '../drawing/shape'
import { useSize } from '../picture/use-size'
import type { States } from './use-states'

const EDGE = /^edge\.\w\.nose\.full$/

/** Whether a step explains the width of an edge, so that a drawing of its rays belongs beside it. */
export const explainsEdge = ({ readings = [] }: ExplainStep): boolean =>
  readings.some(({ reading }) => EDGE.test(reading))

interface CauseProps {
  readonly sets: readonly string[]
  readonly states: States
}

/** States whose rays belong on a handout. */
export const drawnOnPaper = (step: Step): readonly string[] =>
  step.kind === 'explain' && explainsEdge(step) ? step.sets : []

/** What is drawn of the states that a step shows, each by the number of its picture. */
const causesOf = ({ sets, states }: CauseProps): readonly CauseSeen[] =>
  sets.flatMap((set, i) => {
    const rays = states.raysOf(set)
    return rays ? [{ name: `${i + 1}`, rays }] : []
  })

/** The cause of an edge, drawn from the states that a step shows, by their numbers. */
export function Cause(props: CauseProps) {
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, true)
  const found = causesOf(props)
  const key = JSON.stringify(found)
  const widthEm = size ? Math.round(size.width / size.textPx) : 0
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says all of what is found
  const drawing = useMemo(
    () => (found.length > 0 && widthEm > 0 ? drawEdgeCause(found, widthEm) : null),
    [key, widthEm],
  )
  return (
    <figure className="cause">
      <div ref={box}>{drawing && size && <Drawn drawing={drawing} emPx={size.textPx} />}</div>
      {drawing && <Caption drawing={drawing} seen={props} />}
    </figure>
  )
}

/** The width of the drawing on paper, and the size of its letters there: 11 pt. */
const PAPER_EM = 30
const PAPER_PX = 44 / 3

/** The same for paper, where nothing can be measured before it is printed; the pictures' numbers are told by name. */
export function CauseOnPaper(props: CauseProps) {
  const found = causesOf(props)
  if (found.length === 0) return null
  const drawing = drawEdgeCause(found, PAPER_EM)
  const names = props.sets.map((set, i) => `${i + 1}: ${set}`).join(', ')
  return (
    <figure className="cause">
      <Drawn drawing={drawing} emPx={PAPER_PX} />
      <Caption drawing={drawing} seen={props} names={`${names}.`} />
    </figure>
  )
}

/** As wide as it was drawn, or as there is room. */
const Drawn = ({ drawing, emPx }: { drawing: CauseDrawing; emPx: number }) => {
  const [width, height] = [drawing.widthEm * emPx, drawing.heightEm * emPx]
  return (
    <svg
      className="drawing"
      role="img"
      aria-label={drawing.description}
      viewBox={`0 0 ${width} ${height}`}
      style={{ width, maxWidth: '100%', height: 'auto', fontSize: emPx }}
    >
      {drawing.shapes.map((shape, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
        <ShapeView key={i} shape={shape} at={{ scale: emPx, x: 0, y: 0 }} />
      ))}
    </svg>
  )
}

interface CaptionProps {
  readonly drawing: CauseDrawing
  readonly seen: CauseProps
  readonly names?: string
}

/** The drawing in numbers, one source a line, and why its widths are not quite those of the names. */
const Caption = ({ drawing: { larger, sums }, seen: { sets, states }, names }: CaptionProps) => {
  const keys = sets.flatMap((set) => keyOf(states.sittingOf(set)) ?? [])
  const has = (kind: string) => keys.some(({ modifier }) => modifier.kind === kind)
  return (
    <figcaption>
      {names && <p>{names}</p>}
      <p>
        {!names && sets.length > 1 && 'Lamp 1 is that of picture 1. '}Gap: nose tip to cheek. Right of the nose all is
        drawn {larger} times larger.
        {has('softbox') && ' A box is named by its sides; here, from corner to corner, it is wider.'}
        {has('octa') && ' An octa is named from side to side; here, towards its corners, it is wider.'}
      </p>
      <ul>
        {sums.map((sum) => (
          <li key={sum}>{sum}</li>
        ))}
      </ul>
    </figcaption>
  )
}
const keyOf = ({ sources }: Sitting) => sources.find(({ role }) => role === 'key')
