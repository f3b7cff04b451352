import { lazy, Suspense, useLayoutEffect, useRef, useState } from 'react'
import { mirrorSet } from '../../sitting'
import { CompareGroup, isCompared } from '../contact/ways-in'
import { useDerived, useMarks } from '../derived'
import { useKit } from '../kit/kit-store'
import { choose, edit, select, setSession, useSession, useSitting } from '../store'
import { AddList } from './add-list'
import { eyesRisen } from './eyes-risen'
import { footWords } from './foot-words'
import { GroupRows } from './group-rows'
import type { ControlSheet, NumberRow, Row } from './model'
import { Opens } from './opens'
import { ActionView, type Owner } from './rows'
import { Ruler } from './ruler'
import { sheetOf } from './sheet'
import { Several, ThingActions } from './thing-actions'
import { useWide } from './use-wide'
import { WhatWord } from './what-word'
import { metersOf, thingsOf } from './words'

/** Loaded when the kit is opened. */
const KitView = lazy(async () => ({ default: (await import('../kit/kit-view')).KitView }))

/** Everything about the selected thing; which thing, is chosen by its word or on the drawings. */
export function Controls() {
  const sitting = useSitting()
  const marks = useMarks()
  const exposure = useDerived((derived) => derived.read?.exposure ?? null)
  const selected = useSession((session) => session.selected)
  const opened = useSession((session) => session.opened)
  const kit = useKit()
  const rig = useDerived((derived) => derived.rig)
  const units = useSession((session) => session.units)
  const foot = footWords(sitting, rig, selected, units)
  const eyesRisenM = eyesRisen(sitting, rig)
  const sheet = sheetOf({ sitting, marks, exposure, kit, foot, eyesRisenM }, selected)
  const first = sheetOf({ sitting: opened, marks, exposure: null, eyesRisenM }, selected)
  const wide = useWide()
  return (
    <section className="controls" aria-label="Controls">
      <nav className="things" aria-label="Things in the set">
        {wide ? (
          <Things />
        ) : (
          <>
            <InHand word={selected === 'kit' ? 'kit' : sheet ? `${sheet.title} ${sheet.kind}`.trim() : 'things'} />
            {sheet && <WhatWord sheet={sheet} />}
          </>
        )}
      </nav>
      {selected === 'kit' ? (
        <Suspense>
          <KitView />
        </Suspense>
      ) : sheet === null || selected === null ? (
        <p>
          {sitting.sources.length === 0
            ? 'No source: add one, or choose a thing.'
            : 'Nothing is in hand: choose a thing.'}
        </p>
      ) : (
        <Sheet
          key={selected}
          id={selected}
          sheet={sheet}
          first={first}
          wide={wide}
          compares={isCompared(sitting, selected)}
        />
      )}
    </section>
  )
}

/** Every thing of the set by its word, then the mirror, and what can be added. */
function Things({ done }: { done?: () => void }) {
  const sitting = useSitting()
  const selected = useSession((session) => session.selected)
  const also = useSession((session) => session.also)
  const several = useSession((session) => session.several)
  const things = thingsOf(sitting)
  return (
    <>
      {things.map(({ id, word }) => (
        <button
          key={id}
          type="button"
          className="word"
          aria-pressed={id === selected || also.includes(id)}
          onClick={(event) => {
            if (!several) done?.()
            choose(id, event.ctrlKey || event.metaKey)
          }}
        >
          {word}
        </button>
      ))}
      <button
        type="button"
        className="word"
        title="take several things in hand: they move, are copied and go together"
        aria-pressed={several}
        onClick={() => setSession(several ? { several: false, also: [] } : { several: true })}
      >
        several
      </button>
      <Meters {...(done ? { done } : {})} />
      <button
        type="button"
        className="word"
        title="what you own"
        aria-pressed={selected === 'kit'}
        onClick={() => {
          done?.()
          select('kit')
        }}
      >
        kit
      </button>
      <button
        type="button"
        className="word"
        title="the whole set, left for right"
        onClick={() => edit('the set mirrored', mirrorSet)}
      >
        flip
      </button>
      <AddList {...(done ? { done } : {})} />
    </>
  )
}

/** Meter places are many: behind one word. */
function Meters({ done }: { done?: () => void }) {
  const meters = metersOf(useSitting())
  const selected = useSession((session) => session.selected)
  if (meters.length === 0) return null
  return (
    <Opens word="meters" toLeft>
      {(close) =>
        meters.map(({ id, word }) => (
          <button
            key={id}
            type="button"
            className="word"
            aria-pressed={id === selected}
            onClick={() => {
              close()
              done?.()
              select(id)
            }}
          >
            {word}
          </button>
        ))
      }
    </Opens>
  )
}

/** Where there is no room for a row of things: the one in hand, and the others behind its word. */
function InHand({ word }: { word: string }) {
  return (
    <Opens word={word} named={`${word}, in hand: other things`}>
      {(close) => <Things done={close} />}
    </Opens>
  )
}

interface SheetProps {
  readonly id: string
  readonly sheet: ControlSheet
  readonly first: ControlSheet | null
  readonly wide: boolean
  /** States of it can be put side by side. */
  readonly compares: boolean
}

/** The group of its own for that. */
const VARIANTS = 'variants'

const rowsOf = (sheet: ControlSheet | null): readonly Row[] => sheet?.groups.flatMap(({ rows }) => rows) ?? []
const unfolded = (rows: readonly Row[]): readonly Row[] =>
  rows.flatMap((row) => (row.kind === 'fold' ? unfolded(row.rows) : [row]))

function Sheet({ id, sheet, first, wide, compares }: SheetProps) {
  const [openGroup, setOpenGroup] = useState(sheet.groups[0]!.id)
  const heading = useRef<HTMLHeadingElement>(null)
  // Another thing in hand: its rows are shown from the first, not from where the last thing's were left.
  useLayoutEffect(() => {
    heading.current?.closest('.controls')?.scrollTo(0, 0)
  }, [])
  const owner = {
    thing: sheet.title,
    first: (row: string) => unfolded(rowsOf(first)).find((entry) => entry.id === row) ?? null,
  }
  const shown = compares && openGroup === VARIANTS
  const group = shown ? null : (sheet.groups.find((entry) => entry.id === openGroup) ?? sheet.groups[0]!)
  const tabs = [...sheet.groups, ...(compares ? [{ id: VARIANTS, title: VARIANTS }] : [])]
  const compare = compares && <CompareGroup id={id} isOpen={shown} />
  const head = (
    <div className="selected">
      <div className="in-hand">
        <b>{sheet.title}</b> {sheet.kind}
      </div>
      {sheet.actions.map((row) => (
        <ActionView key={row.id} row={row} />
      ))}
      <ThingActions id={id} title={sheet.title} />
      {wide && <WhatWord sheet={sheet} />}
      <Several />
    </div>
  )
  return (
    <>
      <h2 ref={heading} className="unseen">
        {`${sheet.title} ${sheet.kind}`.trim()}
      </h2>
      {wide && head}
      {wide && compare}
      <HeldTape sheet={sheet} owner={owner} />
      <div className="tabs">
        {tabs.map((entry) => (
          <button
            key={entry.id}
            type="button"
            className="word"
            aria-pressed={entry.id === (group?.id ?? VARIANTS)}
            onClick={() => setOpenGroup(entry.id)}
          >
            {entry.title}
          </button>
        ))}
      </div>
      {sheet.groups.map((entry) => (
        <div key={entry.id} className="group" data-open={entry === group}>
          <h3>{entry.title}</h3>
          <div className="rows">
            <GroupRows rows={entry.rows} owner={owner} />
          </div>
        </div>
      ))}
      {!wide && compare}
      {!wide && head}
    </>
  )
}

/** On a phone: one line of names, and the chosen one as a tape. */
function HeldTape({ sheet, owner }: { sheet: ControlSheet; owner: Owner }) {
  const [heldRow, setHeldRow] = useState('tape')
  const numbers = rowsOf(sheet).filter((row): row is NumberRow => row.kind === 'number')
  const held = numbers.find((row) => row.id === heldRow) ?? numbers[0]
  if (!held) return null
  return (
    <div className="phone-tape">
      <div className="names">
        {numbers.map((row) => (
          <button
            key={row.id}
            type="button"
            className="word"
            aria-pressed={row === held}
            onClick={() => setHeldRow(row.id)}
          >
            {row.label}
          </button>
        ))}
      </div>
      <Ruler row={held} owner={owner} />
    </div>
  )
}
