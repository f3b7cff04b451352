import { expect } from 'vitest'
import { plain, type Section, type Words } from '../../src/print'

const METRES_A_FOOT = 0.3048
/** Half of what is rounded to: an inch, or a foot where no inches are told. */
const roundedM = (feet: string): number => (feet.endsWith('″') ? 0.0128 : METRES_A_FOOT / 2)

/** '5′ 11½″', '3′', '4″' in metres: the international foot is 0.3048 m (agreement of 1959). */
function metresOf(text: string): number {
  const [, feet = '0', inches = '0', half] = /^(?:(\d+)′)? ?(?:(\d+)?(½)?″)?$/.exec(text)!
  return (Number(feet) + (Number(inches) + (half ? 0.5 : 0)) / 12) * METRES_A_FOOT
}

const FEET = /^(\d+′(?: \d*½?″)?|\d*½?″)/
/** What these say is told in metres alone, as the sheet says itself. */
const METRIC = ['What shifts it', 'Watch in this set', 'Note']

function pairsIn(text: string): readonly (readonly [metres: number, feet: string])[] {
  return [...text.matchAll(/((?:\d+\.)?\d+(?: × [\d.]+)*)( m|(?: [RL])?\n)(?![a-z])/g)].flatMap((match) => {
    const metres = match[1]!.split(' × ').map(Number)
    const rest = text.slice(match.index + match[0].length).replace(/^(, | or )/, '')
    const feet = rest.split(' × ').slice(0, metres.length)
    return metres.map((m, i) => [m, FEET.exec(feet[i] ?? '')?.[0] ?? `none beside ${match[0]} in ${text}`] as const)
  })
}

/** Every length in metres in words and tables has the same length in feet and inches behind it. Gives back how many there are. */
export function expectFeetBeside(sections: readonly Section[], foot: Words): number {
  const words = sections
    .filter(({ title }) => !METRIC.includes(title))
    .flatMap(({ title, blocks }) => [
      title,
      ...blocks.flatMap((block) =>
        block.kind === 'words' ? [block.words] : block.kind === 'table' ? block.rows.flat() : [],
      ),
    ])
  const texts = [...words, foot].flatMap((cell) =>
    typeof cell === 'object' && 'empty' in cell ? [] : [plain(cell).replaceAll('\u00a0', ' ')],
  )
  const pairs = texts.flatMap(pairsIn)
  for (const [metres, feet] of pairs) {
    expect(feet).toMatch(FEET)
    expect(Math.abs(metresOf(feet) - metres), `${metres} m, ${feet}`).toBeLessThan(roundedM(feet))
  }
  return pairs.length
}
