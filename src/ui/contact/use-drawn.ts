import { useEffect } from 'react'
import type { Sitting } from '../../sitting'
import type { LengthUnits } from '../values'
import { type Cell, contactDesk, useContact } from './contact-desk'

/** Of a small picture, CSS pixels. */
const WIDTH_PX = 300

/**
 * Has them read and drawn, in order, for as long as they are shown. The list keeps its identity while it is the same.
 * exposedBy: place of the one whose exposure all have; null: each its own.
 */
export function useDrawn(
  sittings: readonly Sitting[],
  units: LengthUnits,
  exposedBy: number | null = null,
): readonly Cell[] {
  const cells = useContact((state) => state.cells)
  useEffect(() => {
    if (sittings.length > 0)
      contactDesk.show({ sittings, width: WIDTH_PX * Math.min(2, window.devicePixelRatio), units, exposedBy })
  }, [sittings, units, exposedBy])
  useEffect(() => () => contactDesk.close(), [])
  return cells
}
