import { HalfRoom, type HalfRoomGrid, type MeterScene } from '../../meter'
import { edgeProbe } from '../../readings'
import { pump } from '../desks/pump'

/** Cells along a side of the half-room, and those of its middle that are shown: as wide a view as the closest box needs. */
const SIDE = 240
const SHOWN = { width: 180, height: 150 }
/** Pixels of the picture to a cell. */
const PX = 3

/** Greys of what is met: a drawing, no photograph. */
const SOURCE = 0xf3
const GREYS: Readonly<Record<HalfRoomGrid['things'][number]['kind'], number>> = {
  source: SOURCE,
  gear: 0x4a,
  sitter: 0x76,
  surface: 0x1b,
  ball: 0x4a,
  nothing: 0x1b,
}

/** What a cheek sees towards the key from the middle of the edge of the nose shadow, as who stands there looks; null: superseded. */
export async function cheekView(scene: MeterScene, superseded: () => boolean): Promise<OffscreenCanvas | null> {
  const probe = edgeProbe(scene)
  if (!probe) return withoutEdge()
  const grid = await pump(new HalfRoom(scene, probe).grid(SIDE), superseded)
  return grid && painted(greysOf(grid))
}

function withoutEdge(): OffscreenCanvas {
  const canvas = new OffscreenCanvas(SHOWN.width * PX, SHOWN.height * PX)
  const context = canvas.getContext('2d')!
  context.fillStyle = `rgb(${SOURCE} ${SOURCE} ${SOURCE})`
  context.font = `${canvas.height / 12}px sans-serif`
  context.textAlign = 'center'
  context.fillText('no edge to stand in', canvas.width / 2, canvas.height / 2)
  return canvas
}

/** Of the cells that are shown, row by row. A source that is smaller than a cell shows all the same. */
export function greysOf({ thing, direct, things }: Pick<HalfRoomGrid, 'thing' | 'direct' | 'things'>): Uint8Array {
  const { width, height } = SHOWN
  const [left, top] = [(SIDE - width) / 2, (SIDE - height) / 2]
  return Uint8Array.from({ length: width * height }, (_, i) => {
    const cell = (top + Math.floor(i / width)) * SIDE + left + (i % width)
    const met = things[thing[cell]!]
    return met?.kind !== 'sitter' && direct[cell]! > 0 ? SOURCE : GREYS[met?.kind ?? 'nothing']
  })
}

function painted(greys: Uint8Array): OffscreenCanvas {
  const [width, height] = [SHOWN.width * PX, SHOWN.height * PX]
  const canvas = new OffscreenCanvas(width, height)
  const context = canvas.getContext('2d')!
  const image = context.createImageData(width, height)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const grey = greyAt(greys, (x + 0.5) / PX - 0.5, (y + 0.5) / PX - 0.5)
      image.data.set([grey, grey, grey, 255], 4 * (y * width + x))
    }
  context.putImageData(image, 0, 0)
  return canvas
}

/** Of the four cells about a place the grey that has most of it, so that an outline runs between cells and not along their sides. */
function greyAt(greys: Uint8Array, x: number, y: number): number {
  const { width, height } = SHOWN
  const [left, top] = [Math.floor(x), Math.floor(y)]
  const [right, down] = [x - left, y - top]
  const at = (i: number, j: number) =>
    greys[Math.min(height - 1, Math.max(0, j)) * width + Math.min(width - 1, Math.max(0, i))]!
  const four = [at(left, top), at(left + 1, top), at(left, top + 1), at(left + 1, top + 1)]
  if (four.every((grey) => grey === four[0])) return four[0]!
  const weights = [(1 - right) * (1 - down), right * (1 - down), (1 - right) * down, right * down]
  const share = (grey: number) => weights.reduce((sum, weight, i) => sum + (four[i] === grey ? weight : 0), 0)
  return four.reduce((most, grey) => (share(grey) > share(most) ? grey : most))
}
