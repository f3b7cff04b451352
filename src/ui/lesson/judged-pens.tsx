import { type Answer, type Choice, type Lesson, type PredictStep, partsOf, partWords, type TryStep } from '../../lesson'
import { ChoicePen, ConditionPen, NumberPen, named, Remove, SomePen, TextPen, useReadingOptions } from './pens'
import type { Change } from './step-pen'

interface PartProps<S> {
  readonly step: S
  readonly change: Change
  readonly names: readonly string[]
}

const ANGLES = { round: 'source.A.azimuthFromLens', up: 'source.A.elevation' } as const

/** An answer of another kind, about the same reading of the same state. */
function answerOf(kind: string, answer: Answer): Answer {
  const of =
    answer.kind === 'choice'
      ? { set: answer.choices[0]!.holds[0]!.set, reading: answer.choices[0]!.holds[0]!.reading }
      : answer.of
  if (kind === 'angle') return { kind, plane: 'round', of: { ...of, reading: ANGLES.round }, within: 15 }
  if (kind === 'number') return { kind, of, within: 0.3 }
  return {
    kind: 'choice',
    choices: [
      { words: 'more', holds: [{ ...of, from: 1 }] },
      { words: 'less', holds: [{ ...of, to: 1 }] },
    ],
  }
}

/** What is hidden, and what is judged of a prediction. */
export function Predict({ step, change, names }: PartProps<PredictStep>) {
  const { answer } = step
  return (
    <>
      <SomePen
        name="hidden until the prediction is in"
        all={step.sets}
        chosen={step.hides}
        onSome={(hides) => change({ hides })}
      />
      <ChoicePen
        name="answered by"
        value={answer.kind}
        options={[
          ['choice', 'choosing'],
          ['number', 'typing a number'],
          ['angle', 'sketching an angle'],
        ]}
        onChoice={(kind) => change({ answer: answerOf(kind, answer) })}
      />
      <HintPen hint={step.hint} change={change} />
      {answer.kind === 'choice' ? (
        <Choices
          choices={answer.choices}
          names={names}
          onChoices={(choices) => change({ answer: { ...answer, choices } })}
        />
      ) : (
        <Value answer={answer} names={names} onAnswer={(next) => change({ answer: next })} />
      )}
    </>
  )
}

const HintPen = ({ hint, change }: { hint: string | undefined; change: Change }) => (
  <TextPen name="said when it is wrong" value={hint ?? ''} onText={(next) => change({ hint: next || undefined })} />
)

function Value({
  answer,
  names,
  onAnswer,
}: {
  answer: Exclude<Answer, { kind: 'choice' }>
  names: readonly string[]
  onAnswer(answer: Answer): boolean
}) {
  const readings = useReadingOptions()
  return (
    <div className="pens">
      <ChoicePen
        name="judged by"
        value={answer.of.set ?? ''}
        options={named(names)}
        onChoice={(set) => onAnswer({ ...answer, of: { ...answer.of, set } })}
      />
      {answer.kind === 'angle' ? (
        <ChoicePen
          name="drawn"
          value={answer.plane}
          options={[
            ['round', 'round the sitter'],
            ['up', 'over the eyes'],
          ]}
          onChoice={(plane) =>
            onAnswer({
              ...answer,
              plane: plane as 'round' | 'up',
              of: { ...answer.of, reading: ANGLES[plane as 'round' | 'up'] },
            })
          }
        />
      ) : (
        <ChoicePen
          name="reading"
          value={answer.of.reading}
          options={readings}
          onChoice={(reading) => onAnswer({ ...answer, of: { ...answer.of, reading } })}
        />
      )}
      <NumberPen
        name="right within"
        value={answer.within}
        onNumber={(within) => within !== undefined && onAnswer({ ...answer, within })}
      />
    </div>
  )
}

function Choices({
  choices,
  names,
  onChoices,
}: {
  choices: readonly Choice[]
  names: readonly string[]
  onChoices(choices: readonly Choice[]): boolean
}) {
  const put = (i: number, part: Partial<Choice>) =>
    onChoices(choices.map((each, j) => (j === i ? { ...each, ...part } : each)))
  return (
    <>
      {choices.map((choice, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: choices stand where they stand
        <div key={i} className="choice-pen">
          <TextPen
            name={`choice ${i + 1}`}
            value={choice.words}
            onText={(words) => words !== '' && put(i, { words })}
          />
          <p>is right where</p>
          {choice.holds.map((condition, j) => (
            <ConditionPen
              // biome-ignore lint/suspicious/noArrayIndexKey: conditions stand where they stand
              key={j}
              condition={condition}
              sets={names}
              onCondition={(next) => put(i, { holds: choice.holds.map((each, k) => (k === j ? next : each)) })}
            />
          ))}
          <TextPen
            name="why, said where it is wrong"
            value={choice.why ?? ''}
            onText={(why) => put(i, { why: why || undefined })}
          />
          {choices.length > 2 && (
            <Remove what={`choice ${i + 1}`} onRemove={() => onChoices(choices.filter((_, j) => j !== i))} />
          )}
        </div>
      ))}
      <button
        type="button"
        className="word under"
        onClick={() => onChoices([...choices, { words: `choice ${choices.length + 1}`, holds: choices[0]!.holds }])}
      >
        add a choice
      </button>
    </>
  )
}

/** What a goal begins with and asks for. */
export function Try({ lesson, step, change, names }: PartProps<TryStep> & { readonly lesson: Lesson }) {
  const goal = step.goal ?? []
  return (
    <>
      <div className="pens">
        <ChoicePen
          name="begins with"
          value={step.from ?? names[0]!}
          options={named(names)}
          onChoice={(from) => change({ from })}
        />
        <NumberPen name="judged at most, times" value={step.tries} onNumber={(tries) => change({ tries })} />
      </div>
      <HintPen hint={step.hint} change={change} />
      <TextPen
        name="said when it is met: why"
        value={step.why ?? ''}
        onText={(next) => change({ why: next || undefined })}
      />
      {goal.map((condition, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: conditions stand where they stand
        <div key={i} className="choice-pen">
          <ConditionPen
            condition={condition}
            sets={null}
            onCondition={(next) => change({ goal: goal.map((each, j) => (j === i ? next : each)) })}
          />
          {goal.length > 1 && (
            <Remove what={`goal ${i + 1}`} onRemove={() => change({ goal: goal.filter((_, j) => j !== i) })} />
          )}
        </div>
      ))}
      <SomePen
        name="only this may be changed (none: all may)"
        all={partsOf(lesson.start)}
        chosen={step.only ?? []}
        wordsOf={partWords}
        onSome={(only) => change({ only: only.length > 0 ? only : undefined, from: step.from ?? names[0]! })}
      />
      <button
        type="button"
        className="word under"
        onClick={() => change({ goal: [...goal, { reading: goal[0]?.reading ?? 'face.pattern', from: 0 }] })}
      >
        add a goal
      </button>
    </>
  )
}
