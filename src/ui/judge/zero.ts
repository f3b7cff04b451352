import { cellAt, cellLuminance, type Plate, projectToFrame } from '../../camera'
import { GREY_CARD } from '../../photometry'
import { keyOf, nearCheek, type Rig } from '../../rig'
import { dot, normalize, subtract } from '../../space'

/** What a stops map counts from. */
export interface Zero {
  /** Exposed linear. */
  readonly luminance: number
  /** Of the metered cheek, shares of the picture from the upper left corner; null: it is middle grey instead. */
  readonly at: { readonly x: number; readonly y: number } | null
}

const MIDDLE_GREY: Zero = { luminance: GREY_CARD, at: null }
/** Cosine to the lens from which on the cheek is seen well enough to be told by the picture. */
const SEEN_FROM = 0.25

/** The metered face: the near cheek as the picture shows it; middle grey where the frame has none of it. rig: as it is seen. */
export function zeroOf(rig: Rig, plate: Plate): Zero {
  const key = keyOf(rig)
  const [figure] = rig.figures
  if (!key || !figure) return MIDDLE_GREY
  const { position, normal } = figure.posed.landmarks[nearCheek(figure, key.frame.origin)]
  const place = projectToFrame(position, rig.view.frame, rig.view)
  const facing = dot(normal, normalize(subtract(rig.view.frame.origin, position)))
  if (!place || facing < SEEN_FROM || Math.max(Math.abs(place.x), Math.abs(place.y)) > 0.97) return MIDDLE_GREY
  const at = { x: (1 + place.x) / 2, y: (1 - place.y) / 2 }
  const luminance = aboutCell(plate, cellAt(plate, at.x, at.y))
  return luminance > 0 ? { luminance, at } : MIDDLE_GREY
}

/** Mean over three cells each way, as the map is eased. */
function aboutCell(plate: Plate, cell: number): number {
  const offsets = [-1, 0, 1].flatMap((y) => [-1, 0, 1].map((x) => cell + y * plate.columns + x))
  const cells = offsets.filter((i) => i >= 0 && i < plate.columns * plate.rows && plate.sitter[i] >= 0.5)
  return cells.reduce((sum, i) => sum + cellLuminance(plate, i), 0) / cells.length
}
