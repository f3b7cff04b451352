import type { Panel } from './types'

/** What a panel is called: 'white panel', 'white V-flat' where it is folded, or 'mirror'. */
export const panelWords = ({ kind, foldDeg }: Pick<Panel, 'kind' | 'foldDeg'>): string =>
  kind.endsWith('mirror') ? kind : `${kind} ${(foldDeg ?? 0) > 0 ? 'V-flat' : 'panel'}`
