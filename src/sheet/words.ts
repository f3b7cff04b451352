import { type Modifier, modifierKind } from '../gear'
import { lengthLabel } from '../paper'
import { bold, type Words } from '../print'
import { figure, lengthText, side } from '../readings'

const HAND_M = 0.05

/** As near as a hand sets a stand, metres. */
export const toHand = (metres: number): number => Math.round(metres / HAND_M) * HAND_M

/** Feet and inches to the half inch, on one line: '5′ 11½″', '4″'. */
export const feet = (metres: number): string => onOneLine(lengthText(metres, 'feet'))
const onOneLine = (text: string): string => text.replace(/^0′ /, '').replace(' ', '\u00a0')

/** Metres to 5 cm and the same in feet to the inch, side by side: as near as a hand sets a stand. */
export const length = (metres: number): Words => [
  bold(`${figure(toHand(metres), 2)} m`),
  `, ${onOneLine(lengthLabel(toHand(metres), 'feet'))}`,
]

/** The same to a centimetre and half an inch, for sizes of things. */
export const exactLength = (metres: number): string => `${figure(metres, 2)} m, ${feet(metres)}`

/** Widths and heights of a thing: '0.60 × 0.90 m, 1′ 11½″ × 2′ 11½″'. */
export const sizeWords = (metres: readonly number[]): string =>
  `${metres.map((m) => figure(m, 2)).join(' × ')} m, ${metres.map(feet).join(' × ')}`

/** Of a hand's breadth or two: '10 cm, 4″'. */
export const shortLength = (metres: number): string => `${figure(100 * metres)} cm, ${feet(metres)}`

/** A place over the floor from X, metres to camera right and towards the camera: '0.79 m, 2′ 7″ right and 0.12 m, 4½″ before X'. */
export function fromX([x, , z]: readonly [number, number, number]): string {
  const words = [
    Math.abs(x) < 0.005 ? '' : `${exactLength(Math.abs(x))} ${x > 0 ? 'right' : 'left'}`,
    Math.abs(z) < 0.005 ? '' : `${exactLength(Math.abs(z))} ${z > 0 ? 'before' : 'behind'}`,
  ].filter(Boolean)
  return words.length === 0 ? 'over X' : `${words.join(' and ')}${words.at(-1)!.endsWith('t') ? ' of' : ''} X`
}

export const angle = (degrees: number): string => `${figure(Math.abs(degrees))}°`

/** '45° to camera right', 'straight on'. */
export const round = (degrees: number): string =>
  Math.abs(degrees) < 0.5 ? 'straight on' : `${angle(degrees)} to ${side(degrees)}`

/** '1/125 s', '0.5 s'. */
export const shutter = (seconds: number): string =>
  seconds < 0.3 ? `1/${Math.round(1 / seconds)} s` : `${Number(seconds.toFixed(2))} s`

/** Fields of a modifier that say how wide its open face is. */
const ACROSS = ['diameterM', 'widthM', 'heightM']

/** 'white umbrella, 0.95 m, 3′ 1½″', 'softbox, 0.60 × 0.90 m, 1′ 11½″ × 2′ 11½″': with how wide it is open. */
export function sizedWords(modifier: Modifier): string {
  const { label, fields } = modifierKind(modifier.kind)
  const sizes = ACROSS.filter((id) => fields.some((field) => field.id === id)).map((id) => Number(modifier[id]))
  const open = sizes.filter(Number.isFinite)
  const name = label.toLowerCase().replace(', reflected', '')
  return open.length > 0 ? `${name}, ${sizeWords(open)}` : name
}

/** The other fields of its table that are not as usual: 'depth 0.21 m, 8½″, cloth satin'. */
export function modifierDetails(modifier: Modifier): string {
  const { fields } = modifierKind(modifier.kind)
  const isUsual = ({ id, default: usual }: (typeof fields)[number]) =>
    modifier[id] === undefined || modifier[id] === usual
  // One that goes along with another is not as usual where that other is not: a size typed on the page takes it along.
  const led = (field: (typeof fields)[number]) =>
    field.type === 'number' && fields.some((other) => other.id === field.follows && !isUsual(other))
  const isOwn = (field: (typeof fields)[number]) =>
    !ACROSS.includes(field.id) &&
    field.type !== 'text' &&
    modifier[field.id] !== undefined &&
    (!isUsual(field) || led(field))
  return fields
    .filter(isOwn)
    .map((field) => {
      const value = modifier[field.id]
      const unit = field.type === 'number' && field.unit ? ` ${field.unit}` : ''
      const text = typeof value === 'number' ? figure(value, 3).replace(/\.?0+$/, '') : value
      const inFeet = unit === ' m' ? `, ${feet(Number(value))}` : ''
      return `${field.label.toLowerCase()} ${text}${unit}${inFeet}`
    })
    .join(', ')
}

export const sourceWords = ({ letter, role }: { readonly letter: string; readonly role: string }): string =>
  `${letter}  ${role}`
