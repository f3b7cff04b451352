/** A field of values in the middles of cells, rows from the top. */
export interface CellField {
  readonly columns: number
  readonly rows: number
  readonly values: Float32Array
  /** Only squares between four cells that belong to it are told; left out: all do. */
  readonly within?: ((cell: number) => boolean) | undefined
}

/** Places in cells from the upper left corner: x, y, x, y … */
export interface Area {
  /** Each a polygon; together what lies over the level. */
  readonly pieces: readonly (readonly number[])[]
  /** Each a stroke of its border. */
  readonly strokes: readonly (readonly number[])[]
}

/** Where a field lies above a level, straight between the middles of cells. */
export function areaOver({ columns, rows, values, within }: CellField, level: number): Area {
  const pieces: number[][] = []
  const strokes: number[][] = []
  for (let row = 0; row < rows - 1; row++) {
    let from = -1
    const end = (column: number) => {
      if (from >= 0) pieces.push(strip(from, column, row))
      from = -1
    }
    for (let column = 0; column < columns - 1; column++) {
      const cell = row * columns + column
      const cells = [cell, cell + 1, cell + columns + 1, cell + columns]
      const over = within && !cells.every(within) ? 0 : cells.filter((i) => values[i] > level).length
      if (over === 4) {
        if (from < 0) from = column
        continue
      }
      end(column)
      if (over === 0) continue
      const { piece, crossings } = cut(
        cells.map((i) => values[i] - level),
        column,
        row,
      )
      pieces.push(piece)
      strokes.push(...crossings)
    }
    end(columns - 1)
  }
  return { pieces, strokes }
}

const strip = (from: number, to: number, row: number): number[] => [
  from + 0.5,
  row + 0.5,
  to + 0.5,
  row + 0.5,
  to + 0.5,
  row + 1.5,
  from + 0.5,
  row + 1.5,
]

const CORNERS = [
  [0.5, 0.5],
  [1.5, 0.5],
  [1.5, 1.5],
  [0.5, 1.5],
] as const

/** The part of a square over the level, and its border there, from where the outline leaves it to where it comes in again. */
function cut(above: readonly number[], column: number, row: number): { piece: number[]; crossings: number[][] } {
  const piece: number[] = []
  const leaves: number[][] = []
  const enters: number[][] = []
  for (let i = 0; i < 4; i++) {
    const next = (i + 1) % 4
    const [a, b] = [above[i], above[next]]
    if (a > 0) piece.push(column + CORNERS[i][0], row + CORNERS[i][1])
    if (a > 0 === b > 0) continue
    const t = a / (a - b)
    const at = [
      column + CORNERS[i][0] + t * (CORNERS[next][0] - CORNERS[i][0]),
      row + CORNERS[i][1] + t * (CORNERS[next][1] - CORNERS[i][1]),
    ]
    piece.push(...at)
    if (a > 0) leaves.push(at)
    else enters.push(at)
  }
  // Of two parts each way out is met by the next way in; where the walk began inside, the first way in is the last.
  const shift = above[0] > 0 || leaves.length < 2 ? 0 : 1
  return { piece, crossings: leaves.map((leave, i) => [...leave, ...enters[(i + shift) % enters.length]]) }
}
