import { crc32 } from '../exchange'
import { fixedPointsOf } from '../paper'
import { figure, softness } from '../readings'
import { writeSitting } from '../sitting'
import { cameraCard, readingOf, setCards, sourceCards } from './cards'
import { kitItems, kitWords } from './kit'
import { backdropRows, bandOf, meterRows } from './meters'
import { ifThen, orderOfWork } from './order'
import { rimRows, tapeRows } from './tape'
import type { SetUpSheet, SheetInput } from './types'
import { exactLength } from './words'

/** trade.md §6, the five that hurt most often; common practice in the trade, no source. */
const CAUTIONS: SetUpSheet['cautions'] = [
  { bold: 'First: ' },
  'bag the stand, then the lamp; no arm over a head without a safety line. Leads along walls, taped; way out 0.9 m. ',
  'Tested leads, fault-current switch; unplug before a lamp is changed. Lamps stay hot ten minutes: gloves, no cloth near. ',
  'Ask about light sensitivity; call the first flash, never bare within 1 m of a face. A reminder, no certificate.',
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
    fixedWords: `X: on the floor under the sitter’s eyes. Z: ${fixed.zIs === 'under the lens' ? 'on the floor plumb under the lens' : 'foot of the backdrop, straight behind X'}. X to Z ${toZ}. R, L: to camera right or left of the line X–Z. Angles are seen from the eyes over X: round from the line to the lens, up from the eye line; distances go to the middle of the open face.`,
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

/** 'Loop, short side to the lens; A very soft, 51° across; far cheek −0.6 stop; paper records as 114 of 255.' */
function lookLine(input: SheetInput): string {
  const { rig } = input
  const pattern = readingOf(input, 'face.pattern')
  const side = readingOf(input, 'face.side')
  const key = rig.sources.find(({ on, role }) => on && role === 'key')
  const wide = key ? readingOf(input, `source.${key.letter}.apparentWidth`)?.value : null
  const far = readingOf(input, 'ratio.nearFar')
  const tone = readingOf(input, 'backdrop.tone.paper')
  const parts = [
    [
      typeof pattern?.value === 'string' ? capital(pattern.value) : '',
      typeof side?.value === 'string' ? `${side.text.toLowerCase()} lighting` : '',
    ]
      .filter(Boolean)
      .join(', '),
    key && typeof wide === 'number' ? `key ${softness(wide)}, ${figure(wide)}° across` : '',
    typeof far?.value === 'number' ? `far cheek ${far.text} stop` : '',
    typeof tone?.value === 'number' ? `backdrop records as ${figure(tone.value)} of 255` : '',
  ].filter(Boolean)
  return parts.length > 0 ? `${capital(parts.join('; '))}.` : 'No light yet.'
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function sensitivities({ readings }: SheetInput): readonly string[] {
  return readings
    .filter(({ id }) => id.startsWith('sensitivity.') && !id.startsWith('sensitivity.turn'))
    .map(({ text, unit, sentence }) => `${text}${unit === '°' ? '°' : ` ${unit}`} ${sentence}`)
}
