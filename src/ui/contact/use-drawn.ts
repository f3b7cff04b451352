import { useEffect, useState } from 'react'
import type { LessonLook } from '../../lesson'
import type { Sitting } from '../../sitting'
import type { LengthUnits } from '../values'
import { type Cell, contactDesk, useContact } from './contact-desk'

const NONE: readonly Cell[] = []

/** Of a small picture, CSS pixels. */
const WIDTH_PX = 300

interface How {
  /** Place of the one whose exposure all have; null: each its own. */
  readonly exposedBy?: number | null
  /** Of each, null being numbers alone; left out: the camera's. */
  readonly looks?: readonly (LessonLook | null)[] | undefined
  /** Place of the one that is read before the others. */
  readonly first?: number | undefined
  /** Their numbers are read no further than a class waits for. */
  readonly isQuick?: boolean
  /** They wait for all else that is drawn beside the page. */
  readonly isLast?: boolean
  /** Of pictures that are drawn as the one on the page is: their width, device pixels. Left out: small ones. */
  readonly wholePx?: number | undefined
}

/** Has them read and drawn, in order, for as long as they are shown. The list keeps its identity while it is the same. */
export function useDrawn(
  sittings: readonly Sitting[],
  units: LengthUnits,
  { exposedBy = null, looks, first, isQuick = false, isLast = false, wholePx }: How = {},
): readonly Cell[] {
  const cells = useContact(({ of, cells }) => (of === sittings ? cells : NONE))
  const [by] = useState(() => Symbol('claim'))
  useEffect(() => {
    if (sittings.length > 0)
      contactDesk.show(
        by,
        {
          sittings,
          width: wholePx ?? WIDTH_PX * Math.min(2, window.devicePixelRatio),
          units,
          exposedBy,
          looks,
          first,
          quick: isQuick,
          whole: wholePx !== undefined,
        },
        isLast,
      )
  }, [by, sittings, units, exposedBy, looks, first, isQuick, isLast, wholePx])
  useEffect(() => () => contactDesk.close(by), [by])
  return cells
}
