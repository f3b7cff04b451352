import type { Reading } from '../readings'

/** Readings by what a class calls them; X stands for the letter of their source. */
const NAMES: readonly (readonly [id: RegExp, name: string])[] = [
  [/^face\.pattern$/, 'pattern'],
  [/^face\.side$/, 'facing'],
  [/^exposure\.nearCheek\.disc\.light$/, 'the meter at the near cheek, disc to the light'],
  [/^exposure\.nearCheek\.disc\.lens$/, 'the meter at the near cheek, disc to the lens'],
  [/^exposure\.nearCheek\.dome\.light$/, 'the meter at the near cheek, dome to the light'],
  [/^exposure\.nearCheek\.dome\.lens$/, 'the meter at the near cheek, dome to the lens'],
  [/^ratio\.nearFar$/, 'near to far cheek'],
  [/^ratio\.keyFill$/, 'key to fill'],
  [/^ratio\.highlightShadow$/, 'highlight to shadow'],
  [/^backdrop\.stops$/, 'backdrop against the face'],
  [/^backdrop\.spread$/, 'backdrop, from lightest to darkest'],
  [/^backdrop\.tone\.paper$/, 'backdrop records as'],
  [/^backdrop\.wrap$/, 'backdrop wraps round the cheek'],
  [/^backdrop\.veil$/, 'veil in the lens'],
  [/^backdrop\.shadow\.\w$/, 'shadow by X on the backdrop'],
  [/^edge\.\w\.nose\.full$/, 'edge of the nose shadow by X'],
  [/^edge\.\w\.nose\.tenToNinety$/, 'edge of the nose shadow by X, 10 to 90 %'],
  [/^edge\.\w\.nose\.depth$/, 'depth of the nose shadow by X'],
  [/^edge\.\w\.chin\.full$/, 'edge of the chin shadow by X'],
  [/^source\.\w\.azimuthFromNose$/, 'X, round from the nose'],
  [/^source\.\w\.azimuthFromLens$/, 'X, round from the lens'],
  [/^source\.\w\.elevation$/, 'X, up from the eyes'],
  [/^source\.\w\.tape$/, 'X on the tape'],
  [/^source\.\w\.centreHeight$/, 'height of the centre of X'],
  [/^source\.\w\.apparentWidth$/, 'how wide X looks'],
  [/^source\.\w\.alone$/, 'the meter, X alone'],
  [/^source\.\w\.at\.farCheek$/, 'the meter, X alone at the far cheek'],
  [/^source\.\w\.at\.chin$/, 'the meter, X alone at the chin'],
  [/^source\.\w\.at\.hair$/, 'the meter, X alone at the crown'],
  [/^source\.\w\.power$/, 'power of X'],
  [/^source\.\w\.roomFlux$/, 'light of X into the room, for the same light on the face'],
  [/^source\.\w\.loss$/, 'loss of X'],
  [/^source\.\w\.falloff$/, 'near to far cheek, both facing X'],
  [/^source\.\w\.flare$/, 'lit face of X, outside the frame'],
  [/^source\.\w\.catchlight\.left\.height$/, 'catchlight of X over the iris, camera right'],
  [/^source\.\w\.catchlight\.right\.height$/, 'catchlight of X over the iris, camera left'],
  [/^source\.\w\.glare\.left$/, 'glare of X, lens at camera right'],
  [/^source\.\w\.glare\.right$/, 'glare of X, lens at camera left'],
]

/** What a reading is called; one without such a name by the first words of its sentence, after its source's letter. */
export function readingName({ id, sentence }: Pick<Reading, 'id' | 'sentence'>): string {
  const letter = /^(?:source|edge|backdrop\.shadow)\.(\w)\b/.exec(id)?.[1] ?? ''
  const known = NAMES.find(([pattern]) => pattern.test(id))?.[1]
  if (known) return known.replace(/\bX\b/, letter)
  const [clause] = sentence.split(/[:;.](?: |$)/)
  return letter && !sentence.includes(letter) ? `${letter}, ${clause}` : (clause ?? id)
}
