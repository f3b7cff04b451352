/** Lengths as they are written beside a drawing: metres to 1 cm, or feet and inches to the inch. */
export function lengthLabel(metres: number, units: 'metres' | 'feet'): string {
  if (units === 'metres') return metres.toFixed(2).replace('-', '−')
  const inches = Math.round(Math.abs(metres) / 0.0254)
  const sign = metres < 0 && inches > 0 ? '−' : ''
  return `${sign}${Math.floor(inches / 12)}′ ${inches % 12}″`
}

/** A size: as a length, without the last nought: '1.0 × 1.5', '2.72'. */
export const sizeLabel = (metres: number, units: 'metres' | 'feet'): string =>
  lengthLabel(metres, units).replace(/(\.\d)0$/, '$1')

export const degreesLabel = (degrees: number): string => `${Math.round(degrees)}°`.replace('-', '−')
