import type { Panel, Sitting } from './types'

/** What a panel is called: 'white panel', 'white V-flat' where it is folded, or 'mirror'. */
export const panelWords = ({ kind, foldDeg }: Pick<Panel, 'kind' | 'foldDeg'>): string =>
  kind.endsWith('mirror') ? kind : `${kind} ${(foldDeg ?? 0) > 0 ? 'V-flat' : 'panel'}`

/** What is kept when the light changes, as page and sheet call it. */
export const RE_EXPOSE_WORDS: Readonly<Record<Sitting['reExpose'], string>> = {
  powers: 'equal exposure',
  'f-number': 'equal exposure by f',
  nothing: 'equal power',
}
