import type { EyeName, Rig, RigFigure } from '../rig'
import { distance } from '../space'
import { LENS, MAX_LENSES } from './layouts'
import { Records } from './table'

type LensPair = NonNullable<Rig['figures'][number]['posed']['lenses']>

export interface SeenLens {
  readonly lens: LensPair['left']
  readonly coated: boolean
  /** Row of the eye behind it in the object table. */
  readonly eyeRow: number
}

/** All lenses of the sitters' glasses, the nearest to the camera first. */
export function lensesSeen({ figures, view }: Rig): readonly SeenLens[] {
  const away = ({ lens }: SeenLens) => distance(lens.frame.origin, view.frame.origin)
  const parts = figures.flatMap((figure) => figure.posed.parts.map(({ name }) => ({ figure, name })))
  const eyeRow = (figure: RigFigure, side: EyeName) =>
    1 + parts.findIndex((part) => part.figure === figure && part.name === side)
  return figures
    .flatMap((figure) => {
      const { lenses } = figure.posed
      if (!lenses) return []
      const { left, right, coated } = lenses
      return [
        { lens: left, coated, eyeRow: eyeRow(figure, 'eyeLeft') },
        { lens: right, coated, eyeRow: eyeRow(figure, 'eyeRight') },
      ]
    })
    .sort((a, b) => away(a) - away(b))
}

/** Throws for more lenses than the picture holds. */
export function packLenses(lenses: readonly SeenLens[]): Records {
  if (lenses.length > MAX_LENSES)
    throw new Error(
      `The picture shows at most ${MAX_LENSES / 2} pairs of glasses, got ${lenses.length / 2}. Take some off.`,
    )
  const table = new Records(LENS.columns, Math.max(1, lenses.length))
  lenses.forEach(({ lens: { frame, curvature, halfWidthM, halfHeightM }, coated, eyeRow }, row) => {
    table.set(row, LENS.origin, frame.origin, curvature)
    table.set(row, LENS.axisX, frame.x, halfWidthM)
    table.set(row, LENS.axisY, frame.y, halfHeightM)
    table.set(row, LENS.axisZ, frame.z, coated ? 1 : 0)
    table.set(row, LENS.eye, [eyeRow, 0, 0])
  })
  return table
}
