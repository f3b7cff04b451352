import type { KitHead } from '../../kit'
import { FOLLOWS, FRESH, LAMPS } from '../controls/modelling-rows'
import { quantities } from '../values'
import { KitChoice, KitNumber } from './kit-rows'

type Modelling = KitHead['modelling']

interface Props {
  readonly of: string
  readonly modelling: Modelling
  onValue(modelling: Modelling): void
}

/** What burns in a head of the kit between flashes; named, with its own rows. */
export function ModellingEntry({ of, modelling, onValue }: Props) {
  return (
    <>
      <KitChoice
        {...{ of, label: 'modelling lamp', value: modelling?.lamp ?? 'usual', choices: LAMPS }}
        onValue={(to) => onValue(to === 'halogen' || to === 'LED' ? FRESH[to] : undefined)}
      />
      {modelling && (
        <>
          <KitNumber
            {...{ of, label: 'lamp watts', quantity: quantities.plain('W', 5), range: [1, 1000] }}
            value={modelling.powerW}
            onValue={(powerW) => onValue({ ...modelling, powerW })}
          />
          <KitNumber
            {...{ of, label: 'lamp colour', quantity: quantities.colourTemperature, range: [2000, 20000] }}
            value={modelling.colourTemperatureK}
            onValue={(colourTemperatureK) => onValue({ ...modelling, colourTemperatureK })}
          />
          <KitChoice
            {...{ of, label: 'lamp goes', value: modelling.followsDial ? 'dial' : 'full', choices: FOLLOWS }}
            onValue={(to) => onValue({ ...modelling, followsDial: to === 'dial' })}
          />
        </>
      )}
    </>
  )
}
