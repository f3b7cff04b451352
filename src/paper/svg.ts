import type { Bounds, Drawing, Shape } from './types'

/** Line weights in millimetres of paper, and text sizes; LOOK: cut .75, object .5, ray .35. */
export const PAPER_WEIGHT_MM = { cut: 0.75, object: 0.5, thin: 0.35, dimension: 0.35 }
/** Strokes and gaps, mm; empty: solid. */
export const PAPER_DASH_MM = { solid: [], hidden: [1.2, 1.2], axis: [4, 1.2, 0.6, 1.2] } as const
const TEXT_MM = { label: 3.9, letter: 5 }

/** From the point to the base line. */
const DY = { on: '', over: ' dy="-0.3em"', under: ' dy="1.05em"' }

const escapeXml = (words: string): string =>
  words.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c] ?? c)
const n = (value: number): string => value.toFixed(3)

/** A drawing as an SVG document for paper, black on white, at a scale of 1 : scaleDenominator. */
export function toSvg(drawing: Drawing, scaleDenominator: number): string {
  const mm = 1000 / scaleDenominator
  const { minX, minY, maxX, maxY }: Bounds = drawing.bounds
  const body = drawing.shapes.map((shape) => svgShape(shape, mm)).join('')
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${n((maxX - minX) * mm)}mm" height="${n((maxY - minY) * mm)}mm" viewBox="${n(minX * mm)} ${n(minY * mm)} ${n((maxX - minX) * mm)} ${n((maxY - minY) * mm)}"><title>${escapeXml(drawing.description)}</title>${body}</svg>`
}

function svgShape(shape: Shape, mm: number): string {
  switch (shape.kind) {
    case 'line': {
      const points = shape.points.map(([x, y]) => `${n(x * mm)},${n(y * mm)}`).join(' ')
      const name = shape.closed ? 'polygon' : 'polyline'
      return `<${name} points="${points}" ${paint(shape)}/>`
    }
    case 'circle':
      return `<circle cx="${n(shape.centre[0] * mm)}" cy="${n(shape.centre[1] * mm)}" r="${n(shape.radiusM * mm)}" ${paint(shape)}/>`
    case 'text': {
      const [x, y] = [n(shape.at[0] * mm), n(shape.at[1] * mm)]
      const turn = shape.angleDeg === 0 ? '' : ` transform="rotate(${n(shape.angleDeg)} ${x} ${y})"`
      return `<text x="${x}" y="${y}" font-size="${TEXT_MM[shape.size]}" text-anchor="${shape.anchor}"${DY[shape.stands]} stroke="#fff" stroke-width="0.8" paint-order="stroke" fill="#000"${turn}>${escapeXml(shape.text)}</text>`
    }
    case 'window': {
      const [cx, cy] = shape.centre
      const enlarged = shape.radiusM / shape.spanM
      const inner = shape.shapes.map((child) => svgShape(child, mm * enlarged)).join('')
      const dx = cx * mm - shape.about[0] * mm * enlarged
      const dy = cy * mm - shape.about[1] * mm * enlarged
      const id = `w${n(cx)}${n(cy)}`.replace(/[^\w]/g, '')
      const leader = `<line x1="${n(shape.from[0] * mm)}" y1="${n(shape.from[1] * mm)}" x2="${n(cx * mm)}" y2="${n(cy * mm)}" stroke="#000" stroke-width="${PAPER_WEIGHT_MM.dimension}"/>`
      return `${leader}<clipPath id="${id}"><circle cx="${n(cx * mm)}" cy="${n(cy * mm)}" r="${n(shape.radiusM * mm)}"/></clipPath><circle cx="${n(cx * mm)}" cy="${n(cy * mm)}" r="${n(shape.radiusM * mm)}" fill="#fff" stroke="#000" stroke-width="0.35"/><g clip-path="url(#${id})"><g transform="translate(${n(dx)} ${n(dy)})">${inner}</g></g>`
    }
  }
}

function paint(shape: {
  weight: keyof typeof PAPER_WEIGHT_MM
  dash: keyof typeof PAPER_DASH_MM
  fill: string
}): string {
  const dash = PAPER_DASH_MM[shape.dash]
  const fill = shape.fill === 'sheet' ? '#fff' : shape.fill === 'tint' ? '#ddd' : 'none'
  return `fill="${fill}" stroke="#000" stroke-width="${PAPER_WEIGHT_MM[shape.weight]}"${dash.length > 0 ? ` stroke-dasharray="${dash.join(' ')}"` : ''}`
}
