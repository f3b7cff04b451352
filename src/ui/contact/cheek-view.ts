import { HalfRoom, type HalfRoomGrid, type MeterScene } from '../../meter'
import { edgeProbe } from '../../readings'
import { pump } from '../desks/pump'

/** Cells along a side of the half-room, and those of its middle that are shown: as wide a view as the closest box needs. */
const SIDE = 160
const SHOWN = { width: 120, height: 100 }
/** Pixels of the picture to a cell. */
const PX = 4

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
  const { width, height } = SHOWN
  const cells = new OffscreenCanvas(width, height)
  const small = cells.getContext('2d')!
  const image = small.createImageData(width, height)
  greys.forEach((grey, i) => {
    image.data.set([grey, grey, grey, 255], 4 * i)
  })
  small.putImageData(image, 0, 0)
  const canvas = new OffscreenCanvas(width * PX, height * PX)
  const context = canvas.getContext('2d')!
  context.imageSmoothingQuality = 'high'
  context.drawImage(cells, 0, 0, canvas.width, canvas.height)
  return canvas
}
