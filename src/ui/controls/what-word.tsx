import { Fragment } from 'react'
import { edit } from '../store'
import type { ChoiceRow, ControlSheet } from './model'
import { Opens } from './opens'
import { useWide } from './use-wide'

/** What the thing is made as, where it is named: of a source its modifier, which is changed by a press on its name. */
export function WhatWord({ sheet }: { sheet: ControlSheet }) {
  const { title, what, lining, groups } = sheet
  const wide = useWide()
  if (!what) return null
  const rows = groups.flatMap((group) => group.rows)
  const kind = rows.find((row): row is ChoiceRow => row.kind === 'choice' && row.id === 'kind')
  if (!kind) return <p className="what">{what}</p>
  return (
    <Opens
      word={lining && wide ? `${what}, ${lining}` : what}
      named={`${what}: change the modifier of ${title}`}
      className="what"
    >
      {(close) =>
        kind.choices.map(({ value, label, after }) => (
          <Fragment key={value}>
            <button
              type="button"
              className="word"
              aria-pressed={value === kind.value}
              onClick={() => {
                close()
                if (value !== kind.value) edit(`${title} kind: ${label}`, (sitting) => kind.change(sitting, value))
              }}
            >
              {label}
            </button>
            {after && <p className="said-after">{after}</p>}
          </Fragment>
        ))
      }
    </Opens>
  )
}
