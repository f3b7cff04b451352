/** Lengths as they are written beside a drawing: metres to 1 cm, or feet and inches to the inch. */
export function lengthLabel(metres: number, units: 'metres' | 'feet'): string {
  if (units === 'metres') return metres.toFixed(2).replace('-', '−')
  const inches = Math.round(Math.abs(metres) / 0.0254)
  const sign = metres < 0 && inches > 0 ? '−' : ''
  return `${sign}${Math.floor(inches / 12)}′ ${inches % 12}″`
}

export const degreesLabel = (degrees: number): string => `${Math.round(degrees)}°`.replace('-', '−')
