import { DEFAULT_GLASSES, GLASSES_FIELDS, type Glasses, type GlassesFieldName } from '../../figure'
import { EditRefused } from '../problems'
import type { Sitting } from '../types'
import { changeThing, thingById } from './things'

/**
 * Glasses on a sitter: some of their fields, the others staying as they are, or as a usual pair has them where there was
 * none; null takes them off. Throws EditRefused for a tilt or a curve outside the figure's table.
 */
export function setGlasses(sitting: Sitting, id: string, change: Partial<Glasses> | null): Sitting {
  const sitter = thingById(sitting, 'sitters', id)
  if (change === null) return changeThing(sitting, 'sitters', id, { glasses: null })
  const glasses = { ...DEFAULT_GLASSES, ...sitter.glasses, ...change }
  const path = `sitters[${sitting.sitters.indexOf(sitter)}].glasses`
  for (const name of Object.keys(GLASSES_FIELDS) as GlassesFieldName[]) mustLie(`${path}.${name}`, name, glasses[name])
  return changeThing(sitting, 'sitters', id, { glasses })
}

function mustLie(path: string, name: GlassesFieldName, value: number): void {
  const { range, unit } = GLASSES_FIELDS[name]
  // Not `value < … || value > …`: that would let NaN pass.
  if (value >= range[0] && value <= range[1]) return
  throw new EditRefused({
    rule: 'S18',
    path,
    expected: `${range[0]} to ${range[1]} ${unit}`,
    got: `${value}`,
    advice: 'Choose a value in that range.',
  })
}
