import { differencePlate } from '../../camera'
import { useContact } from '../contact/contact-desk'
import { type Plate, useDerived } from '../derived'
import type { Beside } from '../session-types'
import { useSession, useSitting } from '../store'

/** What is right of the divider against what is left of it, while both are counted out; null: not, or not yet. */
export function useDifference(): ReturnType<typeof differencePlate> {
  const sitting = useSitting()
  const wipe = useSession((session) => session.wipe)
  const look = useSession((session) => session.look)
  const now = useDerived(({ plate }) => (plate?.sitting === sitting && plate.look === look ? plate : null))
  const { of, cells } = useContact()
  const plateOf = (half: Beside): Omit<Plate, 'sitting' | 'look'> | null =>
    half ? (cells[of?.indexOf(half.sitting) ?? -1]?.plate ?? null) : now
  if (!wipe) return null
  const [left, right] = [plateOf(wipe.left), plateOf(wipe.right)]
  return left && right ? differencePlate(left, right) : null
}
