import { expect, test } from 'vitest'
import { placeWords } from '../../src/ui/picture/meter-labels'

const size = { width: 300, height: 450 }
const boxOf = ({ textX, textY, text }: { textX: number; textY: number; text: string }) => ({
  left: textX,
  right: textX + 7 * text.length,
  top: textY - 10,
  bottom: textY + 3,
})

test('words stand right of a mark, and left of it next to the right edge', () => {
  const [one, two] = placeWords(
    [
      { id: 'a', x: 100, y: 100, text: 'f/8' },
      { id: 'b', x: 290, y: 200, text: 'f/11' },
    ],
    size,
    14,
  )
  expect(one.textX).toBeGreaterThan(100)
  expect(two.textX + 28).toBeLessThan(290)
})

test('fifteen places of a face: no words meet words or a mark, and none leaves the picture', () => {
  const marks = Array.from({ length: 15 }, (_, i) => ({
    id: `${i}`,
    x: 60 + 40 * (i % 5),
    y: 180 + 34 * Math.floor(i / 5),
    text: 'f/5.6 + 0.4',
  }))
  const placed = placeWords(marks, size, 14)
  expect(placed.length).toBeGreaterThan(3)
  placed.forEach((words, i) => {
    const a = boxOf(words)
    expect(a.left >= 0 && a.right <= size.width && a.top >= 0 && a.bottom <= size.height).toBe(true)
    for (const other of placed.slice(i + 1)) {
      const b = boxOf(other)
      expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false)
    }
    for (const { x, y } of marks) expect(x > a.left && x < a.right && y > a.top && y < a.bottom).toBe(false)
  })
})
