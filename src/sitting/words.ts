import type { Panel } from './types'

/** What a panel is called: 'white panel', or 'white V-flat' where it is folded. */
export const panelWords = ({ kind, foldDeg }: Pick<Panel, 'kind' | 'foldDeg'>): string =>
  `${kind} ${(foldDeg ?? 0) > 0 ? 'V-flat' : 'panel'}`
