import { LevaPanel, useControls, useCreateStore } from 'leva'
import { createPlugin, useInputContext } from 'leva/plugin'
import { useEffect, useLayoutEffect, useRef } from 'react'
import { lateBound, seenOf } from './late-bound'
import { LEVA_THEME } from './leva-theme'
import type { Row } from './model'
import { type Owner, RowView } from './rows'

/** What leva holds of a row. The document alone says what stands in it; leva passes it on and never writes it. */
interface Held {
  /** First, as leva compares in order: what is seen of it. */
  readonly seen: string
  readonly row: Row
  readonly owner: Owner
}

/** A row as leva's input, drawn by our own slider and field: leva's take no focus. */
const rowInput = createPlugin<Held, Held, object>({
  normalize: (held) => ({ value: held, settings: {} }),
  format: () => '',
  component: HeldRow,
})

function HeldRow() {
  const { row, owner } = useInputContext<{ value: Held }>().value
  return <RowView row={row} owner={owner} />
}

interface GroupRowsProps {
  readonly rows: readonly Row[]
  readonly owner: Owner
}

/** The rows of one group as one panel of leva's, with a store of its own. */
export function GroupRows({ rows, owner }: GroupRowsProps) {
  const store = useCreateStore()
  return (
    <>
      <Carried store={store} rows={rows} owner={owner} />
      <LevaPanel store={store} theme={LEVA_THEME} fill flat titleBar={false} hideCopyButton />
    </>
  )
}

/** A key of leva's store: there a point would open a folder. */
const keyOf = ({ id }: Row): string => id.replaceAll('.', ':')

/**
 * Hands the rows to leva's store before anything is painted, and only those that look otherwise than they did: the others
 * are not drawn again, and what they do is asked of the latest. Draws nothing itself, so no group is drawn twice.
 */
function Carried({ store, rows, owner }: GroupRowsProps & { store: ReturnType<typeof useCreateStore> }) {
  const latest = useRef<Readonly<Record<string, { readonly row: Row; readonly owner: Owner }>>>({})
  const held = (row: Row): Held => {
    const first = { row, owner }
    const now = () => latest.current[keyOf(row)] ?? first
    return { seen: seenOf(first), ...lateBound(first, now) }
  }
  const keys = rows.map(keyOf).join()
  const hand = () => {
    latest.current = { ...latest.current, ...Object.fromEntries(rows.map((row) => [keyOf(row), { row, owner }])) }
    const changed = rows.filter((row) => {
      const known = store.get(keyOf(row)) as Held | undefined
      return known && known.seen !== seenOf({ row, owner })
    })
    if (changed.length > 0) store.set(Object.fromEntries(changed.map((row) => [keyOf(row), held(row)])), false)
  }
  useControls(
    () => Object.fromEntries(rows.map((row, order) => [keyOf(row), rowInput({ ...held(row), order })])),
    { store },
    [keys],
  )
  useLayoutEffect(hand)
  // A row that comes back has the look that it went with.
  // biome-ignore lint/correctness/useExhaustiveDependencies: hand is made anew each time; what only looks otherwise was handed over above
  useEffect(hand, [keys])
  return null
}
