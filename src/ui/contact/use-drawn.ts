import { useEffect, useState } from 'react'
import type { LessonLook } from '../../lesson'
import type { Sitting } from '../../sitting'
import type { LengthUnits } from '../values'
import { type Cell, contactDesk, useContact } from './contact-desk'

const NONE: readonly Cell[] = []

/** Of a small picture, CSS pixels. */
const WIDTH_PX = 300

/**
 * Has them read and drawn, in order, for as long as they are shown. The list keeps its identity while it is the same.
 * exposedBy: place of the one whose exposure all have; null: each its own. looks: of each, null being numbers alone; left out: the camera's. first: place of the one that is read before the others.
 */
export function useDrawn(
  sittings: readonly Sitting[],
  units: LengthUnits,
  exposedBy: number | null = null,
  looks: readonly (LessonLook | null)[] | undefined = undefined,
  first: number | undefined = undefined,
): readonly Cell[] {
  const cells = useContact(({ of, cells }) => (of === sittings ? cells : NONE))
  const [by] = useState(() => Symbol('claim'))
  useEffect(() => {
    if (sittings.length > 0)
      contactDesk.show(by, {
        sittings,
        width: WIDTH_PX * Math.min(2, window.devicePixelRatio),
        units,
        exposedBy,
        looks,
        first,
      })
  }, [by, sittings, units, exposedBy, looks, first])
  useEffect(() => () => contactDesk.close(by), [by])
  return cells
}
