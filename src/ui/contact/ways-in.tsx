import { PANEL_ROWS, panelWords, SITTER_ROWS, type Sitting, sourceRows, type VariantRow } from '../../sitting'
import { Opens } from '../controls/opens'
import { select, setSession, useSession, useSitting } from '../store'

/** What a row of the contact sheet is called where there is room for a word or two. */
export const rowWords = (row: VariantRow): string => ROW_WORDS[row] ?? row

const ROW_WORDS: Partial<Record<VariantRow, string>> = {
  'modifiers, near': 'modifiers, each near',
  finishes: 'panel in white, silver, gold, black',
}

/** The thing that is compared with itself: what is in hand where it can be varied, else the first source that is on. */
interface Compared {
  readonly id: string
  readonly name: string
  readonly rows: readonly VariantRow[]
}

function comparedBy(sitting: Sitting, selected: string | null): Compared | null {
  const sitter = sitting.sitters[0]
  if (selected === sitter.id) return { id: sitter.id, name: 'the sitter', rows: SITTER_ROWS }
  const lit = sitting.sources.filter(({ on }) => on)
  const source = lit.find(({ id }) => id === selected) ?? lit[0]
  if (!source) return null
  const panel = sitting.panels.find(({ id }) => id === selected)
  if (panel) return { id: panel.id, name: `the ${panelWords(panel)}`, rows: PANEL_ROWS }
  return { id: source.id, name: source.letter, rows: sourceRows(source.modifier) }
}

const open = (id: string, row: VariantRow): void => {
  select(id)
  setSession({ contact: { row, equal: 'exposure' } })
}

/** The others are for who has seen these: they stand on the sheet. */
const isFirst = (row: VariantRow): boolean => row !== 'modifiers, near' && row !== 'other modifiers'

interface RowWordsProps extends Compared {
  /** In a list: closes it. */
  onChosen?(): void
}

function RowWords({ id, name, rows, onChosen }: RowWordsProps) {
  return rows.filter(isFirst).map((row) => (
    <button
      key={row}
      type="button"
      className="word"
      aria-label={`${rowWords(row)} of ${name}, side by side`}
      onClick={() => {
        onChosen?.()
        open(id, row)
      }}
    >
      {rowWords(row)}
    </button>
  ))
}

/** Among the controls of a thing: what of it can be put side by side. */
export function CompareGroup({ id, isOpen }: { id: string; isOpen: boolean }) {
  const compared = comparedBy(useSitting(), id)
  if (compared?.id !== id) return null
  return (
    <div className="group ways-in" data-open={isOpen}>
      <h3>variants</h3>
      <div>
        <RowWords {...compared} />
      </div>
    </div>
  )
}

/** Whether a thing has such a group. */
export const isCompared = (sitting: Sitting, id: string): boolean => comparedBy(sitting, id)?.id === id

/** Beside the takes, while there are none to compare: the same of what is in hand, under one word. */
export function CompareWord() {
  const compared = comparedBy(
    useSitting(),
    useSession((session) => session.selected),
  )
  if (!compared || compared.rows.length === 0) return null
  return (
    <Opens word="variants" named={`variants of ${compared.name}, side by side`}>
      {(close) => (
        <>
          <p className="said-first">{`${compared.name}, side by side on the contact sheet:`}</p>
          <RowWords {...compared} onChosen={close} />
        </>
      )}
    </Opens>
  )
}
