import { describe, expect, test } from 'vitest'
import {
  areaOver,
  cellAt,
  codeFromLinear,
  exposureScale,
  plateOf,
  SENSOR_CLIP,
  saturationExposure,
  spotOf,
  standardOutputExposure,
  stopsMap,
} from '../../src/camera'

const picture = (
  width: number,
  height: number,
  at: (x: number, y: number) => readonly [number, number, number],
  sitter: (x: number, y: number) => number = () => 0,
) => {
  const places = Array.from({ length: width * height }, (_, i) => [i % width, Math.floor(i / width)] as const)
  return {
    width,
    height,
    rgba: Float32Array.from(places.flatMap(([x, y]) => [...at(x, y), 1])),
    sitters: Uint8Array.from(places, ([x, y]) => sitter(x, y)),
  }
}
const grey = (value: number) => [value, value, value] as const

describe('plate and tally', () => {
  test('a cell is the mean of its pixels, which are counted once each', () => {
    const plate = plateOf(
      picture(8, 4, (x) => grey(x < 4 ? 0.18 : 0.36)),
      4,
    )
    expect([plate.columns, plate.rows]).toEqual([4, 2])
    expect(plate.linear[0]).toBeCloseTo(0.18, 6)
    expect(plate.linear[3 * 3]).toBeCloseTo(0.36, 6)
    expect(plate.tally.bars.green.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(() => plateOf({ width: 3, height: 3, rgba: new Float32Array(4) })).toThrow(/expected 36 floats .* got 4/)
  })
  test('middle grey stands at code 118, white paper at 241, black at 0 (IEC 61966-2-1)', () => {
    const { bars, black } = plateOf(picture(4, 1, (x) => grey([0.18, 0.88, 0, 0][x]))).tally
    const filled = bars.luminance.flatMap((share, bar) => (share > 0 ? [[bar, share]] : []))
    expect(filled).toEqual([
      [0, 0.5],
      [Math.floor(118 / 4), 0.25],
      [Math.floor(241 / 4), 0.25],
    ])
    expect(black).toBe(0.5)
  })
  test('a code and its bar never part: each bar begins where the rounded code does', () => {
    for (let code = 0; code < 256; code++) {
      const linear = plainLinear(code)
      const { bars } = plateOf(picture(1, 1, () => grey(linear))).tally
      expect(bars.red.indexOf(1)).toBe(Math.floor(Math.round(codeFromLinear(linear, 'plain')) / 4))
    }
  })
  // ISO 12232: saturation at 78/S, the standard level, a metered card's, at 10/S; the second to 1 %, as 10/78 is a rounded 0.18/√2.
  test('the display clips at white, the sensor half a stop above', () => {
    expect(SENSOR_CLIP).toBeCloseTo(Math.SQRT2, 12)
    expect((0.18 * saturationExposure(100)) / standardOutputExposure(100) / SENSOR_CLIP).toBeCloseTo(1, 1.7)
    const { tally } = plateOf(picture(4, 1, (x) => [[0.9, 1.1, 1.5, 0.2][x], 0.2, 0.2]))
    expect([tally.display, tally.sensor]).toEqual([0.5, 0.25])
  })
})

/** IEC 61966-2-1, the standard's own inverse. */
const plainLinear = (code: number): number => {
  const s = code / 255
  return s <= 0.04045 ? s / 12.92 : ((s + 0.055) / 1.055) ** 2.4
}

describe('spot', () => {
  test('a grey card in metered light is 0 stops, code 118, and as bright as its meter says', () => {
    const spot = spotOf(grey(0.18), exposureScale(100, 8))
    expect(spot.stops).toBeCloseTo(0, 12)
    expect(spot.codes).toEqual([118, 118, 118])
    // Incident meter, N² = H·S/C with C = 250 lx·s: f/8 at ISO 100 is 160 lx·s, of which the card sends ρH/π.
    expect(spot.luminance).toBeCloseTo((0.18 * 160) / Math.PI, 10)
    expect(spotOf(grey(1), exposureScale(100, 8)).whiteLuxSeconds).toBeCloseTo(160, 10)
    expect(spotOf(grey(1), exposureScale(400, 16)).luminance).toBeCloseTo(1 / exposureScale(400, 16), 12)
  })
  test('twice the light is a stop; none is none', () => {
    expect(spotOf(grey(0.36), exposureScale(100, 8)).stops).toBeCloseTo(1, 12)
    expect(spotOf(grey(0), exposureScale(100, 8)).stops).toBe(-Infinity)
  })
  test('the place under the pointer is in the cell that shows it', () => {
    const plate = { columns: 10, rows: 20 }
    expect(cellAt(plate, 0, 0)).toBe(0)
    expect(cellAt(plate, 1, 1)).toBe(199)
    expect(cellAt(plate, 0.55, 0.12)).toBe(2 * 10 + 5)
  })
})

const areaOf = (points: readonly number[]): number => {
  let sum = 0
  for (let i = 0; i < points.length; i += 2) {
    const next = (i + 2) % points.length
    sum += points[i] * points[next + 1] - points[next] * points[i + 1]
  }
  return Math.abs(sum) / 2
}

describe('areas over a level', () => {
  test.each([0.3, 2.7, 5.05])('a slope is cut where it crosses %f, to the hair', (level) => {
    const field = { columns: 8, rows: 5, values: Float32Array.from({ length: 40 }, (_, i) => i % 8) }
    const { pieces, strokes } = areaOver(field, level)
    expect(pieces.reduce((sum, piece) => sum + areaOf(piece), 0)).toBeCloseTo((7 - level) * 4, 5)
    expect(strokes.length).toBe(4)
    for (const [x0, , x1] of strokes) for (const x of [x0, x1]) expect(x).toBeCloseTo(level + 0.5, 5)
  })
  test('a round hill has a round border as long as its circle, and that area', () => {
    const side = 81
    const values = Float32Array.from(
      { length: side * side },
      (_, i) => -Math.hypot((i % side) - 40, Math.floor(i / side) - 40),
    )
    const { pieces, strokes } = areaOver({ columns: side, rows: side, values }, -30)
    expect(pieces.reduce((sum, piece) => sum + areaOf(piece), 0) / (Math.PI * 900)).toBeCloseTo(1, 2)
    const long = strokes.reduce((sum, [x0, y0, x1, y1]) => sum + Math.hypot(x1 - x0, y1 - y0), 0)
    expect(long / (2 * Math.PI * 30)).toBeCloseTo(1, 2)
  })
  test('two full corners across from each other: the borders do not cross', () => {
    for (const values of [
      [1, 0, 0, 1],
      [0, 1, 1, 0],
    ]) {
      const { strokes } = areaOver({ columns: 2, rows: 2, values: Float32Array.from(values) }, 0.4)
      expect(strokes.length).toBe(2)
      const corner = ([x0, y0, x1, y1]: readonly number[]) => Math.hypot(x1 - x0, y1 - y0)
      // Each cuts off one empty corner: shorter than a diagonal through the middle.
      for (const stroke of strokes) expect(corner(stroke)).toBeLessThan(Math.SQRT2 * 0.61)
    }
  })
})

describe('stops map', () => {
  const figure = { width: 8, height: 3 }
  /** Down the frame from +1 to −3.5 stops by the metered value; the sitter is the left half. */
  const slope = (x: number, y: number) => grey(0.3 * 2 ** (1 - (4.5 * y) / 89) * (x < 0 ? 0 : 1))
  const plate = plateOf(picture(60, 90, slope, (x) => (x < 30 ? 1 : 0)))
  const map = stopsMap(plate, 0.3, figure)
  test('bands part at half stops, on the sitter alone', () => {
    const rowOf = (stops: number) => ((1 - stops) * 89) / 4.5 + 0.5
    map.darker.forEach(({ strokes }, i) => {
      expect(strokes.length).toBeGreaterThan(20)
      for (const [x0, y0, x1, y1] of strokes) {
        expect(Math.abs(y0 - rowOf(-0.5 - i))).toBeLessThan(0.2)
        expect(Math.abs(y1 - rowOf(-0.5 - i))).toBeLessThan(0.2)
        expect(Math.max(x0, x1)).toBeLessThan(30)
      }
    })
    for (const [, y0] of map.lighter.strokes) expect(Math.abs(y0 - rowOf(0.5))).toBeLessThan(0.2)
  })
  test('every band of the sitter has its figure, each says what is under it, none runs into another', () => {
    for (const { y, stops } of map.figures) expect(Math.abs(stops - (1 - (4.5 * (y - 0.5)) / 89))).toBeLessThan(0.06)
    const onSitter = map.figures.filter(({ x }) => x < 30).map(({ stops }) => Math.max(-3, Math.round(stops)))
    expect(new Set(onSitter)).toEqual(new Set([1, 0, -1, -2, -3]))
    expect(map.figures.some(({ x }) => x > 30)).toBe(true)
    map.figures.forEach((a, i) => {
      for (const b of map.figures.slice(i + 1))
        expect(Math.abs(a.x - b.x) >= figure.width || Math.abs(a.y - b.y) >= figure.height).toBe(true)
    })
  })
  test('no light at all has neither a hole in the hatch nor a figure that is no number', () => {
    const dark = stopsMap(
      plateOf(
        picture(
          40,
          40,
          () => grey(0),
          () => 1,
        ),
      ),
      0.3,
      figure,
    )
    expect(dark.darker[2].pieces.reduce((sum, piece) => sum + areaOf(piece), 0)).toBeCloseTo(39 * 39, 6)
    for (const { stops } of dark.figures) expect(stops).toBe(-10)
  })
})
