import { modifierKind } from '../gear'
import { dialStop } from '../readings'
import { readingOf } from './cards'
import { stands } from './tape'
import type { SheetInput, Step } from './types'
import { exactLength, shortLength } from './words'

const step = (minutes: number, what: string, test: string): Step => ({ what, minutes, test })

/** In which order it is set up, with minutes for two people: common practice in the trade, no source. */
export function orderOfWork(input: SheetInput): readonly Step[] {
  const { sitting, rig, exposure } = input
  const { backdrop, panels, camera } = sitting
  const lit = rig.sources.filter(({ on, remote }) => on && !remote)
  const key = lit.find(({ role }) => role === 'key') ?? lit[0]
  const others = lit.filter((source) => source !== key)
  const isOnCamera = (source: (typeof lit)[number]) => !stands(sitting, source)
  const rigUp = (source: (typeof lit)[number], minutes: number): Step => {
    const { letter, role } = source
    const alone = readingOf(input, `source.${letter}.alone`)?.text
    const isSteady = modifierKind(sitting.sources.find(({ id }) => id === source.id)!.modifier.kind).burnsOn
    const test = alone ? `${isSteady ? 'light' : 'flash'} alone reads ${alone}` : 'it fires'
    if (isOnCamera(source)) return step(2, `${letter}, ${role}: on the camera, set its dial.`, test)
    return step(minutes, `${letter}, ${role}: foot by tape, bag, lamp, modifier, height, aim, dial.`, test)
  }
  return [
    ...(backdrop
      ? [step(10, 'Backdrop up, foot of the paper taped; mark Z.', 'hangs square, no crease in the frame')]
      : []),
    step(
      3,
      `Mark X${backdrop ? '' : ' and Z'}; seat with the sitter’s eyes over X, the head straight.`,
      'height of the eyes as on the sheet',
    ),
    step(5, 'Camera: foot by tape, height, framing, settings.', 'frame as in the picture'),
    step(1, 'All lamps off, one frame.', 'black: the room adds nothing'),
    ...(key ? [rigUp(key, 8)] : []),
    ...(key ? [step(2, 'Key only, one frame. Look at the shadow and both eyes.', patternTest(input))] : []),
    ...panels.map((_, i) =>
      step(
        3,
        panels.length === 1 ? 'Panel: both ends by tape, bag.' : `Panel ${i + 1}: both ends by tape, bag.`,
        'shadow side as on the meter table',
      ),
    ),
    ...others.map((source) => rigUp(source, 6)),
    step(3, 'Meter all, then the backdrop at nine places.', `near cheek reads ${dialStop(exposure.fNumber)}`),
    step(
      2,
      `Grey card, one frame at ${dialStop(exposure.fNumber)}; white balance.`,
      `${camera.balanceK ?? 5500} K neutral`,
    ),
    step(2, 'Clear the way out, tape the leads, call the first flash.', 'nothing in the frame, nobody under a boom'),
  ]
}

function patternTest(input: SheetInput): string {
  const pattern = readingOf(input, 'face.pattern')?.text
  return pattern && pattern !== '–'
    ? `${pattern.charAt(0).toLowerCase()}${pattern.slice(1)} shadow, a catchlight in each eye`.replace(
        /^rembrandt/,
        'Rembrandt',
      )
    : 'a catchlight in each eye'
}

/** What to do when it looks wrong, named by this set's own letters: common practice in the trade, no source. */
export function ifThen({ sitting, rig }: SheetInput): readonly string[] {
  const lit = rig.sources.filter(({ on, remote }) => on && !remote)
  const key = lit.find(({ role }) => role === 'key') ?? lit[0]
  const fill = lit.find(({ role }) => role === 'fill')
  const hair = lit.find(({ role }) => role === 'hair' || role === 'kicker')
  const ground = lit.find(({ role }) => role === 'backdrop')
  const panel = sitting.panels.find(({ kind }) => kind !== 'black')
  const glasses = sitting.sitters.some((sitter) => sitter.glasses)
  return [
    key ? `Eyes dark: ${key.letter} down ${shortLength(0.1)}.` : '',
    key ? `Nose shadow meets the lip: ${key.letter} down ${shortLength(0.1)}, or chin up 5°.` : '',
    key
      ? `${glasses ? 'Glare' : 'Glare, if glasses come'}: ${key.letter} up ${shortLength(0.1)}, or chin down 3°.`
      : '',
    fill
      ? `Shadows too light: ${fill.letter} down 0.5 stop.`
      : panel
        ? `Shadows too light: panel back ${shortLength(0.2)}. Too dark: as much nearer.`
        : `Shadows too light: black panel ${exactLength(0.5)} from the shadow side.`,
    sitting.backdrop
      ? ground
        ? `Backdrop too dark: ${ground.letter} up 0.5 stop.`
        : `Backdrop too dark: sitter${key ? ` and ${key.letter}` : ''} ${shortLength(0.3)} back. Too light: as much forward.`
      : '',
    ground ? `Light wraps round the cheek: sitter ${exactLength(0.5)} forward.` : '',
    hair ? `Hair burns out: ${hair.letter} down 0.7 stop.` : '',
  ].filter(Boolean)
}
