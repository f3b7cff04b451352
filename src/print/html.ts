import { lengthLabel, toSvg } from '../paper'
import { barMetres, laidOnPaper } from './scale-drawing'
import {
  type Block,
  type Cell,
  type Picture,
  type PrintDocument,
  plain,
  runsOf,
  type Section,
  type Words,
} from './types'

const STYLE = `
:root{color-scheme:light}
body{margin:0 auto;padding:16px;max-width:46em;background:#fff;color:#000;font:16px/1.32 "Source Sans 3",system-ui,sans-serif;font-variant-numeric:tabular-nums lining-nums}
h1{font-size:1.75em;font-weight:600;line-height:1.1;margin:0}h2{font-size:1em;font-weight:600;margin:0 0 4px}
header{border-bottom:2px solid #000;padding-bottom:8px}header p{margin:2px 0 0}
section{border-top:1px solid #000;padding:8px 0 12px;break-inside:avoid}section p{margin:2px 0}
b{font-weight:600}table{border-collapse:collapse}td,th{font-weight:400;text-align:left;vertical-align:top;padding:2px 12px 2px 0}th{font-weight:600}.r{text-align:right}
.wide{overflow-x:auto}svg{max-width:100%;height:auto}img{max-width:100%;height:auto;border:1px solid #000;filter:grayscale(1)}
input[type=checkbox]{width:20px;height:20px;margin:0}input[type=text]{width:7em;font:inherit;border:0;border-bottom:1px solid #000;background:#fff;color:#000}
.beside{display:flex;gap:12px;flex-wrap:wrap}footer{border-top:2px solid #000;padding-top:8px}
@page{margin:11mm}@media print{body{padding:0;max-width:none;font-size:11pt}svg{max-width:none}}
`

/** A document as one HTML file without scripts and without anything from elsewhere: boxes can be ticked, figures typed. */
export function writeHtml(document: PrintDocument): string {
  const { title, subtitle, notes, lead, sections, foot } = document
  const head = `<header><h1>${safe(title)}</h1><p>${safe(subtitle)}</p><p>${notes.map(safe).join('<br>')}</p></header>`
  const body = `${head}<main>${sections.map(sectionHtml).join('')}<section>${lead.map(blockHtml).join('')}</section></main>`
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"><title>${safe(title)}</title><style>${STYLE}</style></head><body>${body}<footer><p>${wordsHtml(foot)}</p></footer></body></html>\n`
}

const safe = (text: string): string =>
  text.replace(/[&<>"']/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' })[c]!)

const wordsHtml = (words: Words): string =>
  runsOf(words)
    .map((run) => (typeof run === 'string' ? safe(run) : `<b>${safe(run.bold)}</b>`))
    .join('')
    .replaceAll('\n', '<br>')

const sectionHtml = ({ title, blocks }: Section): string =>
  `<section><h2>${safe(title)}</h2>${blocks.map(blockHtml).join('')}</section>`

function blockHtml(block: Block): string {
  switch (block.kind) {
    case 'words':
      return `<p>${wordsHtml(block.words)}</p>`
    case 'table':
      return tableHtml(block)
    case 'drawing':
      return `<p>${safe(block.caption)}, 1 : ${block.scale} when printed at full size</p>${barHtml(block.scale)}${toSvg(laidOnPaper(block.drawing, block.scale).drawing, block.scale)}`
    case 'picture':
      return `<img src="${dataUri(block.picture)}" alt="${safe(block.picture.alt)}" style="width:${block.widthMm}mm">`
    case 'beside':
      return `<div class="beside"><div>${blockHtml(block.left)}</div><div>${blockHtml(block.right)}</div></div>`
  }
}

/** A bar to lay a ruler along, five parts black and white by turns. */
function barHtml(scale: number): string {
  const metres = barMetres(scale)
  const part = (metres * 1000) / scale / 5
  const parts = [0, 1, 2, 3, 4].map(
    (i) =>
      `<rect x="${0.2 + i * part}" y="0.2" width="${part}" height="1.6" fill="${i % 2 === 0 ? '#000' : '#fff'}" stroke="#000" stroke-width="0.35"/>`,
  )
  const [width, height] = [5 * part + 0.4, 2]
  return `<p>0 <svg class="bar" role="img" aria-label="scale bar" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">${parts.join('')}</svg> ${metres} m, ${lengthLabel(metres, 'feet')}</p>`
}

function tableHtml({ named, columns, rows }: Extract<Block, { kind: 'table' }>): string {
  const align = (i: number) => (columns[i]?.align === 'right' ? ' class="r"' : '')
  const heads = columns.some(({ head }) => head)
    ? `<thead><tr>${columns.map(({ head }, i) => (head ? `<th${align(i)}>${safe(head)}</th>` : '<td></td>')).join('')}</tr></thead>`
    : ''
  const body = rows.map(
    (row) => `<tr>${row.map((cell, i) => `<td${align(i)}>${cellHtml(cell, row, named)}</td>`).join('')}</tr>`,
  )
  return `<div class="wide"><table aria-label="${safe(named)}">${heads}<tbody>${body.join('')}</tbody></table></div>`
}

const isWords = (cell: Cell): cell is Words => typeof cell === 'string' || Array.isArray(cell)

function cellHtml(cell: Cell, row: readonly Cell[], named: string): string {
  if (isWords(cell)) return wordsHtml(cell)
  const beside = safe(row.filter(isWords).map(plain).filter(Boolean).slice(0, 2).join(', ') || named)
  return cell.empty === 'tick'
    ? `<input type="checkbox" aria-label="${beside}">`
    : `<input type="text" inputmode="text" aria-label="actual: ${beside}">`
}

const CHUNK = 0x8000

function dataUri({ bytes, type }: Picture): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += CHUNK) text += String.fromCharCode(...bytes.subarray(i, i + CHUNK))
  return `data:image/${type};base64,${btoa(text)}`
}
