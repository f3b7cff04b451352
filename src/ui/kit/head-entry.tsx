import { changeEntry, type KitHead, removeEntry } from '../../kit'
import { STEPS } from '../controls/dial-rows'
import { quantities } from '../values'
import { Entry, KitChoice, KitName, KitNumber, KitOptional, KitWord } from './kit-rows'
import { editKit } from './kit-store'
import { ModellingEntry } from './modelling-entry'

const { colourTemperature, duration, energy, plain, power } = quantities
const kg = plain('kg', 0.1)
const DIALS = [
  { value: 'fractions', label: 'fractions: 1/4' },
  { value: 'numbers', label: 'a number a stop: 8.0' },
  { value: 'joules', label: 'joules' },
] as const

/** A lamp head: its energy from full to lowest, its dial, and what it weighs. */
export function HeadEntry({ head }: { head: KitHead }) {
  const { id, name } = head
  const change = (what: string, fields: Partial<Omit<KitHead, 'id'>>) =>
    editKit(`${name} ${what}`, (kit) => changeEntry(kit, 'heads', id, fields))
  const steps = head.stepStops === undefined ? '' : String(head.stepStops)
  const known = STEPS.some(({ value }) => value === steps)
  const dialStyle = head.dialStyle ?? 'fractions'
  return (
    <Entry name={name}>
      <KitName of={name} value={name} onValue={(to) => change(`named ${to}`, { name: to })} />
      <KitNumber
        {...{ of: name, label: 'energy', quantity: energy, range: [1, 6400], value: head.energyJ }}
        onValue={(energyJ) => change('energy', { energyJ })}
      />
      <KitNumber
        {...{ of: name, label: 'lowest', quantity: power, range: [-12, 0], value: head.lowestStops }}
        onValue={(lowestStops) => change('lowest power', { lowestStops })}
      />
      <KitChoice
        {...{ of: name, label: 'steps', value: steps }}
        choices={known ? STEPS : [...STEPS, { value: steps, label: `${steps} stop` }]}
        onValue={(to) => change('steps', { stepStops: to === '' ? undefined : Number(to) })}
      />
      <KitChoice
        {...{ of: name, label: 'dial', value: dialStyle, choices: DIALS }}
        onValue={(to) =>
          change('dial', {
            dialStyle: to as NonNullable<KitHead['dialStyle']>,
            dialTop: to === 'numbers' ? (head.dialTop ?? 10) : undefined,
          })
        }
      />
      {dialStyle === 'numbers' && (
        <KitNumber
          {...{ of: name, label: 'at full', quantity: plain('', 0.1), range: [1, 20], value: head.dialTop ?? 10 }}
          onValue={(dialTop) => change('dial at full', { dialTop })}
        />
      )}
      <KitNumber
        {...{ of: name, label: 'colour', quantity: colourTemperature, range: [2000, 20000] }}
        value={head.colourTemperatureK}
        onValue={(colourTemperatureK) => change('colour', { colourTemperatureK })}
      />
      <KitOptional
        {...{ of: name, label: 'weighs', quantity: kg, range: [0.05, 30], value: head.massKg }}
        onValue={(massKg) => change('weight', { massKg })}
      />
      <KitOptional
        {...{ of: name, label: 't0.5', quantity: duration, range: [0.00001, 0.1], value: head.t05S }}
        onValue={(t05S) => change('duration t0.5', { t05S })}
      />
      <KitOptional
        {...{ of: name, label: 't0.1', quantity: duration, range: [0.00001, 0.1], value: head.t01S }}
        onValue={(t01S) => change('duration t0.1', { t01S })}
      />
      <KitOptional
        {...{ of: name, label: 't0.5 at lowest', quantity: duration, range: [0.00001, 0.1], value: head.t05LowestS }}
        onValue={(t05LowestS) => change('duration t0.5 at lowest', { t05LowestS })}
      />
      <KitOptional
        {...{ of: name, label: 't0.1 at lowest', quantity: duration, range: [0.00001, 0.1], value: head.t01LowestS }}
        onValue={(t01LowestS) => change('duration t0.1 at lowest', { t01LowestS })}
      />
      <ModellingEntry
        {...{ of: name, modelling: head.modelling }}
        onValue={(modelling) => change('modelling lamp', { modelling })}
      />
      <KitWord
        word="remove"
        named={`remove ${name} from the kit`}
        press={() => editKit(`${name} removed`, (kit) => removeEntry(kit, id))}
      />
    </Entry>
  )
}
