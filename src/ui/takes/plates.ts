import { create } from 'zustand'
import { differencePlate } from '../../camera'
import type { Look } from '../../rig'
import type { Sitting } from '../../sitting'
import { type Plate, useDerived, useDerivedNow } from '../derived'
import { useSession, useSitting } from '../store'
import { stillKey } from './pictures'
import { type Take, takeShown } from './take'

/** The light of takes that were in sight while the exposure was judged, by stillKey; the oldest go. */
const useTakePlates = create<{ readonly plates: ReadonlyMap<string, Plate> }>(() => ({ plates: new Map() }))
const MOST = 6

useDerivedNow.subscribe(({ plate }, before) => {
  if (!plate || plate === before.plate || !plate.sitting || !plate.look) return
  const take = takeShown(plate.sitting)
  if (!take) return
  const key = stillKey(take, plate.look)
  const { plates } = useTakePlates.getState()
  useTakePlates.setState({
    plates: new Map([...[...plates].filter(([other]) => other !== key), [key, plate] as const].slice(-MOST)),
  })
})

/** The light of a take in a view, if it was counted out in this visit. */
export const usePlateOf = (take: Take | undefined, look: Look): Plate | undefined =>
  useTakePlates(({ plates }) => (take ? plates.get(stillKey(take, look)) : undefined))

/** What is right of the divider against the take left of it, while both are compared and judged; null: not, or not yet. */
export function useDifference(): ReturnType<typeof differencePlate> {
  const sitting: Sitting = useSitting()
  const wipe = useSession((session) => session.wipe)
  const look = useSession((session) => session.look)
  const now = useDerived(({ plate }) => (plate?.sitting === sitting && plate.look === look ? plate : null))
  const first = usePlateOf(
    sitting.takes.find(({ name }) => name === wipe?.first),
    look,
  )
  return wipe && !wipe.waiting && now && first ? differencePlate(first, now) : null
}
