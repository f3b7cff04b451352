import { useMemo, useState } from 'react'
import { liningWords, modifierName } from '../../gear'
import {
  type Panel,
  type PlaceLandmarks,
  panelWords,
  type Sitting,
  type Source,
  sourcePlace,
  VARIANT_ROWS,
  type Variant,
  type VariantRow,
  variantsOf,
} from '../../sitting'
import { useDerived, useMarks } from '../derived'
import { CONTACT_WORD } from '../openers'
import { type Contact, select, setSession, useSession, useSitting } from '../store'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { Cells } from './cells'
import { inTheWay, leftOut } from './left-out'
import { Over } from './over'
import { useDrawn } from './use-drawn'
import { rowWords } from './ways-in'

const TITLE = 'contact-title'

/** Closes it; the focus goes back to what opened it, or where that is gone, to the word in the bar. */
const closing = (contact: Contact, opener: Element | null) => () => {
  setSession({ contact: null, contactBefore: contact })
  requestAnimationFrame(() => {
    const isThere = opener instanceof HTMLElement && opener !== document.body && opener.isConnected
    const word = isThere ? opener : document.getElementById(CONTACT_WORD)
    word?.focus()
  })
}

interface ContactSheetProps {
  readonly contact: Contact
  /** What had the focus when it was asked for. */
  readonly opener: Element | null
}

/** Variants of the set side by side, each with its numbers; in place of the working surface while it is open. */
export function ContactSheet({ contact, opener }: ContactSheetProps) {
  const sitting = useSitting()
  const selected = useSession((session) => session.selected)
  const units = useSession((session) => session.units)
  const marks = useMarks()
  const close = closing(contact, opener)
  const [chosen, setChosen] = useState<Sitting | null>(null)
  const source = sitting.sources.find(({ id, on }) => on && id === selected) ?? sitting.sources.find(({ on }) => on)
  const panel = sitting.panels.find(({ id }) => id === selected) ?? sitting.panels[0]
  const varied = contact.row === 'finishes' ? panel?.id : source?.id
  const variants = useMemo(
    () => (marks && source && varied ? variantsOf(sitting, varied, contact.row, marks) : []),
    [marks, source, varied, sitting, contact.row],
  )
  const sittings = useMemo(
    () => variants.map((variant) => alike(variant.sitting, contact.equal)),
    [variants, contact.equal],
  )
  const left = marks && source && leftOut(source, contact.row, sourcePlace(source, sitting.camera, marks).tapeM, units)
  const now = variants.findIndex(({ isNow }) => isNow)
  // Light by light, and at equal power, all are seen as the set as it stands is exposed.
  const shared = contact.equal === 'power' || contact.row === 'sources one by one'
  const found = variants.findIndex((variant) => variant.sitting === chosen)
  const against = found < 0 ? now : found
  const { enlarged = false } = contact
  const looks = useMemo(() => (enlarged ? sittings.map(() => 'edge' as const) : undefined), [enlarged, sittings])
  const cells = useDrawn(sittings, units, { exposedBy: shared && now >= 0 ? now : null, looks, first: against })
  return (
    <Over titled={TITLE} onClose={close}>
      <Head contact={contact} source={source} panel={panel} sitting={sitting} units={units} onClose={close} />
      {source && (
        <p className="said law">
          {ROW_LAWS[contact.row]} <span className="wide-only">{SURER}</span>
        </p>
      )}
      {left && (
        <p className="said law">
          {`${left} `}
          {contact.row === 'modifiers' && (
            <button
              type="button"
              className="word press"
              onClick={() => setSession({ contact: { ...contact, row: 'modifiers, near' } })}
            >
              see them each near
            </button>
          )}
        </p>
      )}
      {!source && <p className="said">No source is on: there is nothing to vary.</p>}
      {source && variants.length === 0 && (
        <p className="said">{`${source.letter} has nothing of the kind to vary. Choose another row.`}</p>
      )}
      {source && variants.length > 0 && (
        <Cells
          variants={variants}
          sets={sittings}
          cells={cells}
          letter={source.letter}
          tapes={contact.row === 'modifiers, near' && marks ? tapesOf(variants, source.id, marks, units) : null}
          cautions={variants.map((variant) => (marks ? inTheWay(variant.sitting, source.id, marks) : null))}
          enlarged={enlarged}
          units={units}
          sitting={sitting}
          ofSource={contact.row !== 'finishes'}
          tellsLining={/modifiers/.test(contact.row)}
          shared={shared}
          against={against}
          canWipe={contact.row !== 'sources one by one' && (!shared || sitting.reExpose === 'nothing')}
          onAgainst={(place) => setChosen(variants[place]!.sitting)}
          onClose={close}
        />
      )}
    </Over>
  )
}

/** Why these, and where the rest is. */
const SHAPES = 'One of each shape that portrait studios have, in its usual size; the rest is under ‹other modifiers›.'
const REST =
  'The rest of what goes onto the same head, in its usual size, against the one that is on; what burns on, sun and sky are in the list at the modifier’s name, among the controls.'
const MODIFIERS_LAW =
  'The edge goes by how wide the lit part appears across it, the depth of the shadow by what the modifier throws into the room and the room throws back.'

/** Why the pictures of a row differ, in a sentence. */
const ROW_LAWS: Partial<Record<VariantRow, string>> = {
  distances:
    'Edge of a shadow = size of the source × gap from nose to cheek ÷ distance: nearer, the source appears larger and the edge widens; room and panels get less of its light and fill the shadow less, until the nose no longer hides all of the source.',
  sizes:
    'Edge of a shadow = size of the source × gap from nose to cheek ÷ distance: larger at the same place, it appears larger and the edge widens.',
  finishes:
    'White sends what it catches all ways; silver and gold send most of it one way, as a dull mirror does, and fill more where that goes; black takes light away.',
  modifiers: `${MODIFIERS_LAW} ${SHAPES}`,
  'other modifiers': `${MODIFIERS_LAW} ${REST}`,
  'modifiers, near': SHAPES,
}

const SURER =
  'What differs between two of them is surer than the band of a single reading: lamp, room and meter are the same in both.'

/** Where each variant of a source stands. */
const tapesOf = (
  variants: readonly Variant[],
  id: string,
  marks: PlaceLandmarks,
  units: LengthUnits,
): readonly string[] =>
  variants.map(({ sitting: { sources, camera } }) => {
    const source = sources.find((one) => one.id === id)
    return source ? `tape ${formatLength(sourcePlace(source, camera, marks).tapeM, units)}` : ''
  })

/** By the meter all pictures are equally exposed, whether powers or the f-number give way. */
const alike = (sitting: Sitting, equal: Contact['equal']): Sitting =>
  equal === 'exposure' && sitting.reExpose === 'nothing' ? { ...sitting, reExpose: 'powers' } : sitting

interface HeadProps {
  readonly contact: Contact
  readonly source: Source | undefined
  readonly panel: Panel | undefined
  readonly sitting: Sitting
  readonly units: LengthUnits
  onClose(): void
}

function Head({ contact, source, panel, sitting, units, onClose }: HeadProps) {
  const lit = sitting.sources.filter(({ on }) => on)
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const { enlarged = false } = contact
  const say = (change: Partial<Contact>) => setSession({ contact: { ...contact, ...change } })
  return (
    <header className="contact-head">
      <h2 id={TITLE}>Contact sheet</h2>
      {source && contact.row !== 'finishes' && <Whereabouts source={source} sitting={sitting} units={units} />}
      {panel && contact.row === 'finishes' && (
        <p className="whereabouts">{`The side of the ${panelWords(panel)} that faces the sitter.`}</p>
      )}
      {lit.length > 1 && (
        <select
          className="field"
          aria-label="source that is varied"
          value={source?.id}
          onChange={(event) => select(event.currentTarget.value)}
        >
          {lit.map(({ id, letter }) => (
            <option key={id} value={id}>{`source ${letter}`}</option>
          ))}
        </select>
      )}
      <div className="equals">
        {(['exposure', 'power'] as const).map((equal) => (
          <button
            key={equal}
            type="button"
            className="word"
            aria-pressed={contact.equal === equal}
            onClick={() => say({ equal })}
          >{`equal ${equal}`}</button>
        ))}
      </div>
      {drawn && (
        <div className="equals">
          {[false, true].map((one) => (
            <button
              key={String(one)}
              type="button"
              className="word"
              aria-pressed={enlarged === one}
              onClick={() => say({ enlarged: one })}
            >
              {one ? 'shadow edge enlarged' : 'whole picture'}
            </button>
          ))}
        </div>
      )}
      <fieldset className="rows">
        <legend className="unseen">What is varied</legend>
        {VARIANT_ROWS.filter((row) => row !== 'finishes' || panel).map((row: VariantRow) => (
          <button
            key={row}
            type="button"
            className="word"
            aria-pressed={contact.row === row}
            onClick={() => say({ row })}
          >
            {rowWords(row)}
          </button>
        ))}
      </fieldset>
      <button type="button" className="word" onClick={onClose}>
        close
      </button>
    </header>
  )
}

function Whereabouts({ source, sitting, units }: { source: Source; sitting: Sitting; units: LengthUnits }) {
  const marks = useMarks()
  if (!marks) return null
  const { azimuthFromLensDeg, elevationDeg, tapeM } = sourcePlace(source, sitting.camera, marks)
  const round = formatAngle(azimuthFromLensDeg, ['right', 'left'])
  return (
    <p className="whereabouts">
      {`${source.letter} now: `}
      {/* Its own card names it too. */}
      <span className="wide-only">
        {[modifierName(source.modifier), liningWords(source.modifier)].filter(Boolean).join(', ')},{' '}
      </span>
      {`${round}, ${formatAngle(elevationDeg, ['up', 'down'])}, tape ${formatLength(tapeM, units)}.`}
    </p>
  )
}
