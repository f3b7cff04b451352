import { MODIFIER_KINDS } from '../../gear'
import {
  changeEntry,
  type Kit,
  type KitCalibration,
  type KitModifier,
  type KitStand,
  removeEntry,
  resizeModifier,
} from '../../kit'
import { fixed, quantities } from '../values'
import { Entry, KitChoice, KitName, KitNumber, KitOptional, KitWord } from './kit-rows'
import { editKit } from './kit-store'

const { fNumber, length, plain, smallLength } = quantities
const kg = plain('kg', 0.1)

const Remove = ({ id, name }: { id: string; name: string }) => (
  <KitWord
    word="remove"
    named={`remove ${name} from the kit`}
    press={() => editKit(`${name} removed`, (kit) => removeEntry(kit, id))}
  />
)

/** A modifier with its open size, as gear's own field table has it. */
export function ModifierEntry({ entry }: { entry: KitModifier }) {
  const { id, name, modifier, massKg } = entry
  const kind = MODIFIER_KINDS.find((other) => other.id === modifier.kind)
  const resize = (what: string, change: Readonly<Record<string, number | string>>) =>
    editKit(`${name} ${what}`, (kit) => resizeModifier(kit, id, change))
  return (
    <Entry name={name}>
      <KitName
        of={name}
        value={name}
        onValue={(to) => editKit(`${name} named ${to}`, (kit) => changeEntry(kit, 'modifiers', id, { name: to }))}
      />
      <p className="row-note">{kind?.label}</p>
      {(kind?.fields ?? []).map((field) => {
        if (field.type === 'text') return null
        const stored = modifier[field.id] ?? field.default
        if (field.type === 'choice')
          return (
            <KitChoice
              key={field.id}
              {...{ of: name, label: field.label, value: String(stored) }}
              choices={field.choices.map((word) => ({ value: word, label: word }))}
              onValue={(to) => resize(field.label, { [field.id]: to })}
            />
          )
        return (
          <KitNumber
            key={field.id}
            {...{ of: name, label: field.label, range: field.range, value: Number(stored) }}
            quantity={field.unit === 'm' ? smallLength : plain(field.unit, field.step)}
            onValue={(to) => resize(field.label, { [field.id]: to })}
          />
        )
      })}
      <KitOptional
        {...{ of: name, label: 'weighs', quantity: kg, range: [0.01, 30], value: massKg }}
        onValue={(to) => editKit(`${name} weight`, (kit) => changeEntry(kit, 'modifiers', id, { massKg: to }))}
      />
      <Remove id={id} name={name} />
    </Entry>
  )
}

export function StandEntry({ stand }: { stand: KitStand }) {
  const { id, name } = stand
  const change = (what: string, fields: Partial<Omit<KitStand, 'id'>>) =>
    editKit(`${name} ${what}`, (kit) => changeEntry(kit, 'stands', id, fields))
  return (
    <Entry name={name}>
      <KitName of={name} value={name} onValue={(to) => change(`named ${to}`, { name: to })} />
      <KitNumber
        {...{ of: name, label: 'highest', quantity: length, range: [0.3, 8], value: stand.highestM }}
        onValue={(highestM) => change('height', { highestM })}
      />
      <KitNumber
        {...{ of: name, label: 'carries', quantity: kg, range: [0.1, 100], value: stand.loadKg }}
        onValue={(loadKg) => change('load', { loadKg })}
      />
      <KitOptional
        {...{ of: name, label: 'boom', quantity: length, range: [0.3, 6], value: stand.boomM, unknown: 'none' }}
        onValue={(boomM) => change('boom', { boomM })}
      />
      <Remove id={id} name={name} />
    </Entry>
  )
}

/** One real reading of a pair, in words. */
export function CalibrationEntry({ entry, kit }: { entry: KitCalibration; kit: Kit }) {
  const head = kit.heads.find(({ id }) => id === entry.headId)?.name ?? entry.headId
  const modifier = kit.modifiers.find(({ id }) => id === entry.modifierId)?.name ?? entry.modifierId
  const name = `${head} with ${modifier}`
  return (
    <Entry name={name}>
      <p className="row-note">
        {`${fixed(Math.abs(entry.stops), 1)} stop ${entry.stops < 0 ? 'less' : 'more'} than worked out: read ${fNumber.format(entry.readFNumber, 'metres')}, ${entry.date}.`}
      </p>
      <Remove id={entry.id} name={`the calibration of ${name}`} />
    </Entry>
  )
}
