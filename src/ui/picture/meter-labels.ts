/** A mark in the picture, pixels from its upper left corner, and the words that belong to it. */
export interface MarkWords {
  readonly id: string
  readonly x: number
  readonly y: number
  readonly text: string
}

/** Where the words of a mark begin on their base line. */
export interface PlacedWords extends MarkWords {
  readonly textX: number
  readonly textY: number
}

interface Box {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** Mean width of a letter, as a share of the text's size: of figures in the page's own type. */
const LETTER = 0.5
/** Half of a mark, and from its rim to its words, pixels. */
const [MARK_PX, GAP_PX] = [6, 3]

/**
 * Words beside their marks: right of them, else left, under or over, wherever they neither leave the picture nor meet what stands
 * there already: other words and all marks. Where no side is free the mark stands without.
 */
export function placeWords(
  marks: readonly MarkWords[],
  { width, height }: { readonly width: number; readonly height: number },
  textPx: number,
): readonly PlacedWords[] {
  const taken: Box[] = marks.map(({ x, y }) => around(x, y, 2 * MARK_PX, 2 * MARK_PX))
  return marks.flatMap((mark) => {
    const box = sides(mark, textPx).find(
      (side) => isWithin(side, width, height) && !taken.some((other) => meet(side, other)),
    )
    if (!box) return []
    taken.push(box)
    return [{ ...mark, textX: box.left, textY: box.bottom - 0.25 * textPx }]
  })
}

function sides({ x, y, text }: MarkWords, textPx: number): Box[] {
  const wide = LETTER * textPx * text.length
  const off = MARK_PX + GAP_PX
  return [
    around(x + off + wide / 2, y, wide, textPx),
    around(x - off - wide / 2, y, wide, textPx),
    around(x, y + off + textPx / 2, wide, textPx),
    around(x, y - off - textPx / 2, wide, textPx),
  ]
}

const around = (x: number, y: number, width: number, height: number): Box => ({
  left: x - width / 2,
  right: x + width / 2,
  top: y - height / 2,
  bottom: y + height / 2,
})

const isWithin = ({ left, top, right, bottom }: Box, width: number, height: number): boolean =>
  left >= 1 && top >= 1 && right <= width - 1 && bottom <= height - 1

const meet = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom
