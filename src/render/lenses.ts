import type { Rig } from '../rig'
import { distance } from '../space'
import { LENS, MAX_LENSES } from './layouts'
import { Records } from './table'

type LensPair = NonNullable<Rig['figures'][number]['posed']['lenses']>

export interface SeenLens {
  readonly lens: LensPair['left']
  readonly coated: boolean
}

/** All lenses of the sitters' glasses, the nearest to the camera first. */
export function lensesSeen({ figures, view }: Rig): readonly SeenLens[] {
  const away = ({ lens }: SeenLens) => distance(lens.frame.origin, view.frame.origin)
  return figures
    .flatMap(({ posed: { lenses } }) =>
      lenses ? [lenses.left, lenses.right].map((lens) => ({ lens, coated: lenses.coated })) : [],
    )
    .sort((a, b) => away(a) - away(b))
}

/** Throws for more lenses than the picture holds. */
export function packLenses(lenses: readonly SeenLens[]): Records {
  if (lenses.length > MAX_LENSES)
    throw new Error(
      `The picture shows at most ${MAX_LENSES / 2} pairs of glasses, got ${lenses.length / 2}. Take some off.`,
    )
  const table = new Records(LENS.columns, Math.max(1, lenses.length))
  lenses.forEach(({ lens: { frame, curvature, halfWidthM, halfHeightM }, coated }, row) => {
    table.set(row, LENS.origin, frame.origin, curvature)
    table.set(row, LENS.axisX, frame.x, halfWidthM)
    table.set(row, LENS.axisY, frame.y, halfHeightM)
    table.set(row, LENS.axisZ, frame.z, coated ? 1 : 0)
  })
  return table
}
