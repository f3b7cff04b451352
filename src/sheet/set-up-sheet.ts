import { crc32 } from '../exchange'
import { fixedPointsOf } from '../paper'
import { figure, softness } from '../readings'
import { writeSitting } from '../sitting'
import { cameraCard, readingOf, sourceCards } from './cards'
import { kitItems, kitWords } from './kit'
import { backdropRows, bandOf, meterRows } from './meters'
import { ifThen, orderOfWork } from './order'
import { setCards } from './set-cards'
import { rimRows, tapeRows } from './tape'
import type { SetUpSheet, SheetInput } from './types'
import { exactLength } from './words'

/** trade.md §6, the five that hurt most often; common practice in the trade, no source. */
const CAUTIONS: SetUpSheet['cautions'] = [
  { bold: 'First: ' },
  'bag the stand, then the lamp; no arm over a head without a safety line. Leads along walls, taped; way out 0.9 m, 3′. ',
  'Tested leads, fault-current switch; unplug before a lamp is changed. Lamps stay hot ten minutes: gloves, no cloth near. ',
  'Ask about light sensitivity; call the first flash, never bare within 1 m, 3′ of a face. A reminder, no certificate.',
]

/** What the sheet says. */
export function setUpSheet(input: SheetInput): SetUpSheet {
  const { sitting, cautions } = input
  const fixed = fixedPointsOf(sitting)
  const kit = kitItems(input)
  const toZ = exactLength(Math.hypot(fixed.z[0] - fixed.x[0], fixed.z[1] - fixed.x[1]))
  return {
    title: sitting.title,
    look: lookLine(input),
    version: crc32(new TextEncoder().encode(writeSitting(sitting)))
      .toString(16)
      .padStart(8, '0'),
    note: sitting.note,
    camera: cameraCard(input),
    sources: sourceCards(input),
    set: setCards(input),
    fixed,
    fixedWords: `What no card names stays as the page gives it; powers are typed at equal power. X: on the floor under the sitter’s eyes, the head straight. Z: ${fixed.zIs === 'under the lens' ? 'on the floor plumb under the lens' : 'foot of the backdrop, straight behind X'}. X to Z ${toZ}. R, L: to camera right or left of the line X–Z. Round and up are seen from the eyes: from the line to the lens, from their height. Tape: from the middle of the open face; its rim is farther where it faces the cheek. Cards are rounded to 5 cm and 1°: where they and the tape table differ, the tape table counts. Along the lines of a drawing, and in the sentences of what shifts it and what to watch, lengths are metric alone: the cards have feet, and 10 cm is 4″.`,
    tape: tapeRows(input),
    rims: rimRows(input),
    meters: meterRows(input),
    meterBand: bandOf(input),
    backdrop: backdropRows(input),
    kit,
    kitWords: kitWords(input, kit),
    order: orderOfWork(input),
    ifThen: ifThen(input),
    sensitivities: sensitivities(input),
    watch: cautions.map(({ sentence }) => sentence),
    cautions: CAUTIONS,
  }
}

/** 'Loop, short lighting; key very soft, 51° across; far cheek −0.6 stop; backdrop 114 of 255.' */
function lookLine(input: SheetInput): string {
  const { rig } = input
  const pattern = readingOf(input, 'face.pattern')
  const side = readingOf(input, 'face.side')
  const key = rig.sources.find(({ on, role }) => on && role === 'key')
  const far = readingOf(input, 'ratio.nearFar')
  const tone = readingOf(input, 'backdrop.tone.paper')
  const parts = [
    [
      typeof pattern?.value === 'string' ? capital(pattern.value) : '',
      typeof side?.value === 'string' ? `${side.text.toLowerCase()} lighting` : '',
    ]
      .filter(Boolean)
      .join(', '),
    keySize(input, key?.letter),
    typeof far?.value === 'number' ? `far cheek ${far.text} stop` : '',
    typeof tone?.value === 'number' ? `backdrop ${figure(tone.value)} of 255` : '',
  ].filter(Boolean)
  return parts.length > 0 ? `${capital(parts.join('; '))}.` : 'No light yet.'
}

/** 'key crisp, 7° across', or by its width and its height where these differ: an edge has the softness of what lies across it. */
function keySize(input: SheetInput, letter = ''): string {
  const [wide, high] = ['Width', 'Height'].map((way) => readingOf(input, `source.${letter}.apparent${way}`)?.value)
  if (typeof wide !== 'number' || typeof high !== 'number') return ''
  const [across, up] = [wide, high].map((size) => `${figure(size)}°`)
  const [one, other] = [softness(wide), softness(high)]
  return `key ${one === other ? one : `${one} to ${other}`}, ${across === up ? `${across} across` : `${across} × ${up}`}`
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function sensitivities({ readings }: SheetInput): readonly string[] {
  return readings
    .filter(({ id }) => id.startsWith('sensitivity.') && !id.startsWith('sensitivity.turn'))
    .map(({ text, unit, sentence }) => `${text}${unit === '°' ? '°' : ` ${unit}`} ${sentence}`)
}
