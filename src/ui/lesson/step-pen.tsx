import { useState } from 'react'
import { changeStep, dropStep, type Lesson, type LessonLook, moveStep, type Step, type TryStep } from '../../lesson'
import { editDraft } from './draft'
import { Predict, Try } from './judged-pens'
import { ChoicePen, named, Remove, SomePen, TextPen, useReadingOptions } from './pens'

interface StepPenProps<S extends Step = Step> {
  readonly lesson: Lesson
  readonly step: S
  readonly index: number
}

/** False: refused. */
export type Change = (change: Readonly<Record<string, unknown>>) => boolean

const LOOK_ROWS: readonly (readonly [string, string])[] = [
  ['camera', 'picture'],
  ['camera,edge', 'picture and shadow edge'],
  ['camera,eye', 'picture and eye'],
  ['edge,sees', 'shadow edge, and what the cheek sees from it'],
]

/** One step: what is said, what is shown, what is hidden and what is judged. */
export function StepPen({ lesson, step, index }: StepPenProps) {
  const change: Change = (part) => editDraft(`step ${index + 1} changed`, (l) => changeStep(l, index, part))
  const names = lesson.sets.map(({ name }) => name)
  return (
    <fieldset className="step-pen">
      <legend>{`${index + 1} ${step.kind}`}</legend>
      <p className="moves">
        {([-1, 1] as const).map((by) => (
          <button
            key={by}
            type="button"
            className="word under"
            aria-label={`move step ${index + 1} ${by < 0 ? 'up' : 'down'}`}
            onClick={() => editDraft(`step ${index + 1} moved`, (l) => moveStep(l, index, by))}
          >
            {by < 0 ? 'up' : 'down'}
          </button>
        ))}
        <button
          type="button"
          className="word under"
          aria-label={`remove step ${index + 1}`}
          onClick={() => editDraft(`step ${index + 1} removed`, (l) => dropStep(l, index))}
        >
          remove
        </button>
      </p>
      <TextPen name="text" long value={step.text} onText={(text) => change({ text })} />
      <Insert names={names} onInsert={(brace) => change({ text: `${step.text} ${brace}`.trim() })} />
      {step.kind !== 'try' && (
        <>
          <SomePen
            name="shows"
            all={names}
            chosen={step.sets}
            onSome={(sets) =>
              change({
                sets,
                ...(step.kind === 'predict' && { hides: step.hides.filter((name) => sets.includes(name)) }),
              })
            }
          />
          <ChoicePen
            name="as"
            value={(step.looks ?? ['camera']).join(',')}
            options={LOOK_ROWS}
            onChoice={(looks) => change({ looks: looks.split(',') as LessonLook[] })}
          />
          <Shown step={step} change={change} names={names} />
        </>
      )}
      {step.kind === 'predict' && <Predict step={step} change={change} names={names} />}
      {step.kind === 'explain' && (
        <TextPen
          name="formula"
          value={step.formula ?? ''}
          onText={(formula) => change({ formula: formula || undefined })}
        />
      )}
      {step.kind === 'try' && <Try lesson={lesson} step={step} change={change} names={names} />}
    </fieldset>
  )
}

/** A number of the program into the text. */
function Insert({ names, onInsert }: { names: readonly string[]; onInsert(brace: string): void }) {
  const readings = useReadingOptions()
  const [set, setSet] = useState(names[0] ?? '')
  const [reading, setReading] = useState('')
  const id = reading || readings[0]?.[0] || ''
  return (
    <div className="pens">
      <ChoicePen name="number of" value={set} options={named(names)} onChoice={setSet} />
      <ChoicePen name="reading" value={id} options={readings} onChoice={setReading} />
      <button type="button" className="word under" onClick={() => onInsert(`{${set}: ${id}}`)}>
        into the text
      </button>
    </div>
  )
}

/** Numbers under the pictures. */
function Shown({ step, change, names }: { step: Exclude<Step, TryStep>; change: Change; names: readonly string[] }) {
  const readings = useReadingOptions()
  const shown = step.readings ?? []
  const put = (i: number, part: object) =>
    change({ readings: shown.map((row, j) => (j === i ? { ...row, ...part } : row)) })
  return (
    <>
      {shown.map((row, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: rows stand where they stand
        <div key={i} className="pens">
          <TextPen
            name="number under the picture"
            value={row.says}
            onText={(says) => says !== '' && put(i, { says })}
          />
          <ChoicePen
            name="reading"
            value={row.reading}
            options={readings}
            onChoice={(reading) => put(i, { reading })}
          />
          <ChoicePen
            name="told"
            value={row.times ?? ''}
            options={[['', 'as it is'], ...names.map((name) => [name, `as so many times “${name}”`] as const)]}
            onChoice={(times) => put(i, { times: times || undefined })}
          />
          <Remove what={row.says} onRemove={() => change({ readings: shown.filter((_, j) => j !== i) })} />
        </div>
      ))}
      <button
        type="button"
        className="word under"
        disabled={readings.length === 0}
        onClick={() => change({ readings: [...shown, { says: 'number', reading: readings[0]![0] }] })}
      >
        add a number under the pictures
      </button>
    </>
  )
}
