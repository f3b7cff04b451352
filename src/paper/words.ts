import { panelWords, type Sitting } from '../sitting'

/** Units of a drawing's words; both: metres, then feet and inches, as on a printed sheet. */
export type DrawnUnits = 'metres' | 'feet' | 'both'

/** Lengths as they are written beside a drawing: metres to 1 cm, or feet and inches to the inch. */
export function lengthLabel(metres: number, units: DrawnUnits): string {
  if (units === 'both') return `${lengthLabel(metres, 'metres')} m, ${lengthLabel(metres, 'feet')}`
  if (units === 'metres') return metres.toFixed(2).replace('-', '−')
  const inches = Math.round(Math.abs(metres) / 0.0254)
  const sign = metres < 0 && inches > 0 ? '−' : ''
  return `${sign}${Math.floor(inches / 12)}′ ${inches % 12}″`
}

/** A size: as a length, without the last nought: '1.0 × 1.5', '2.72'. */
export const sizeLabel = (metres: number, units: DrawnUnits): string =>
  lengthLabel(metres, units).replace(/(\.\d)0(?=$| )/, '$1')

export const degreesLabel = (degrees: number): string => `${Math.round(degrees)}°`.replace('-', '−')

/** Kinds of test object in the trade's words. */
export const OBJECT_WORDS = { ball: 'matt ball', card: 'card', 'flag-before-card': 'flag before a card' } as const

/** What a panel or an object is called, by its id: 'white panel', 'white panel 2'. Two things do not share a name. */
export function namesOf({ panels, objects }: Sitting): ReadonlyMap<string, string> {
  const words = [
    ...panels.map((panel) => [panel.id, panelWords(panel)] as const),
    ...objects.map(({ id, kind }) => [id, OBJECT_WORDS[kind]] as const),
  ]
  return new Map(
    words.map(([id, word], i) => {
      const before = words.slice(0, i).filter(([, other]) => other === word).length
      return [id, before === 0 ? word : `${word} ${before + 1}`]
    }),
  )
}
