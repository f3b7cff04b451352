import { EditRefused } from '../problems'
import type { Sitting, Take } from '../types'

const bodyOf = ({ takes: _, ...body }: Sitting): Take['sitting'] => body

/** The first free name of the row 'take 1', 'take 2', … */
function nextName(sitting: Sitting): string {
  const names = new Set(sitting.takes.map(({ name }) => name))
  let n = 1
  while (names.has(`take ${n}`)) n++
  return `take ${n}`
}

/** Keeps the set as it stands. Throws EditRefused where another take has the name. */
export function keepTake(sitting: Sitting, name = nextName(sitting)): Sitting {
  if (sitting.takes.some((take) => take.name === name))
    throw new EditRefused({
      rule: 'S11',
      path: 'takes',
      expected: 'a name that no other take has',
      got: name,
      advice: 'Give the take another name.',
    })
  return { ...sitting, takes: [...sitting.takes, { name, sitting: bodyOf(sitting) }] }
}

/** The set of a take, with all takes still kept. Throws where no take has the name. */
export function openTake(sitting: Sitting, name: string): Sitting {
  const take = sitting.takes.find((kept) => kept.name === name)
  if (!take) throw new Error(`sitting.openTake: no take is named ${name}`)
  return { ...take.sitting, takes: sitting.takes }
}

export const removeTake = (sitting: Sitting, name: string): Sitting => ({
  ...sitting,
  takes: sitting.takes.filter((take) => take.name !== name),
})
