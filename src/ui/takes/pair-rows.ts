import { liningWords, modifierName } from '../../gear'
import type { Reading } from '../../readings'
import { panelWords, type Sitting, type Source } from '../../sitting'
import { formatAngle, formatLength, type LengthUnits } from '../values'

/** One number of a set that is compared, under the name that it has in both. */
export interface PairRow {
  readonly label: string
  readonly text: string
}

export const UNREAD = 'reading'

/**
 * The numbers of a set that is put beside another one, always the same rows in the same order: what lights it, from where, and what comes
 * of it. readings: null, not yet; settled: what the room sends back is in them.
 */
export function pairRows(
  { panels }: Sitting,
  source: Source | null,
  readings: readonly Reading[] | null,
  settled: boolean,
  units: LengthUnits,
): readonly PairRow[] {
  const letter = source?.letter ?? ''
  const find = (id: string) => readings?.find((reading) => reading.id === id)
  const told = (id: string, words: (value: number) => string, isSure = true): string => {
    if (!readings || !isSure) return source ? UNREAD : 'none'
    const value = find(id)?.value
    return typeof value === 'number' ? words(value) : 'none'
  }
  const stops = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)} stops`
  const degrees = (value: number) => value.toFixed(value < 2 ? 1 : 0)
  const high = find(`source.${letter}.apparentHeight`)?.value
  const full = find(`edge.${letter}.nose.full`)
  const edgeMm = typeof full?.value === 'number' ? full.value : full?.edgeMm
  return [
    {
      label: 'source',
      text: source
        ? [letter, modifierName(source.modifier), liningWords(source.modifier)]
            .filter((words) => words !== null)
            .join(', ')
        : 'no source is on',
    },
    { label: 'tape', text: told(`source.${letter}.tape`, (m) => formatLength(m, units)) },
    { label: 'round', text: told(`source.${letter}.azimuthFromLens`, (deg) => formatAngle(deg, ['right', 'left'])) },
    { label: 'up', text: told(`source.${letter}.elevation`, (deg) => formatAngle(deg, ['up', 'down'])) },
    {
      label: 'appears',
      text: told(`source.${letter}.apparentWidth`, (wide) =>
        [
          typeof high === 'number' ? `${degrees(wide)} × ${degrees(high)}°` : `${degrees(wide)}°`,
          full?.edgeDeg === undefined ? '' : `${degrees(full.edgeDeg)}° across the edge`,
        ]
          .filter(Boolean)
          .join(', '),
      ),
    },
    {
      label: 'shadow edge',
      text: !readings ? UNREAD : edgeMm == null ? 'no edge' : `${edgeMm.toFixed(edgeMm < 10 ? 1 : 0)} mm`,
    },
    { label: 'nose shadow', text: told(`edge.${letter}.nose.depth`, stops, settled) },
    { label: 'chin shadow', text: told(`edge.${letter}.chin.depth`, stops, settled) },
    { label: 'far cheek', text: told('ratio.nearFar', stops, settled) },
    { label: 'backdrop', text: told('backdrop.stops', stops, settled) },
    { label: 'panels', text: panels.map((panel) => panelWords(panel)).join(', ') || 'none' },
  ]
}
