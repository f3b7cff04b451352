import { EditRefused, type Problem } from './problems'
import type { Panel, Sitting } from './types'

export const hasMirror = ({ kind, back = kind }: Panel): boolean =>
  [kind, back].some((cloth) => cloth.endsWith('mirror'))

/** S20: light is followed over one flat mirror, not from mirror to mirror. */
export function problemsOfMirrors({ panels }: Pick<Sitting, 'panels'>, at = ''): Problem[] {
  const mirrors = panels.flatMap((panel, i) => (hasMirror(panel) ? [{ panel, path: `${at}panels[${i}]` }] : []))
  const others = mirrors.slice(1).map(({ panel, path }) => ({
    rule: 'S20' as const,
    path: `${path}.${panel.kind.endsWith('mirror') ? 'kind' : 'back'}`,
    expected: 'one mirror in a set',
    got: `another, besides ${mirrors[0].path}`,
    advice: 'Make one of them silver.',
  }))
  const folded = mirrors.filter(({ panel }) => (panel.foldDeg ?? 0) > 0)
  return [
    ...others,
    ...folded.map(({ panel, path }) => ({
      rule: 'S20' as const,
      path: `${path}.foldDeg`,
      expected: '0°: a mirror is not folded',
      got: `${panel.foldDeg}°`,
      advice: 'Open the fold, or make the panel silver.',
    })),
  ]
}

/** Throws EditRefused where an edit breaks S20. */
export function withMirrorsAllowed(before: Sitting, after: Sitting): Sitting {
  const [problem] = problemsOfMirrors(after)
  if (problem && problemsOfMirrors(before).length === 0) throw new EditRefused(problem)
  return after
}
