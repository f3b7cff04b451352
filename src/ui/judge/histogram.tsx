import { TALLY_BANDS, TALLY_BARS, type Tally, type TallyBand } from '../../camera'

const WORDS: Readonly<Record<TallyBand, string>> = { luminance: 'Y', red: 'R', green: 'G', blue: 'B' }
/** Units of the drawing: a code across, a row high. */
const [WIDE, HIGH] = [256, 30]
const EACH = WIDE / TALLY_BARS
/** Codes with a mark: black, middle grey, a white paper, white. */
const MARKS = [0, 118, 241, 255]

/** Four small histograms, one under the other, told apart by their letter: luminance, red, green, blue. */
export function Histogram({ tally }: { tally: Tally }) {
  return (
    <div className="histogram" role="img" aria-label={`Histogram. ${describe(tally)}`}>
      {TALLY_BANDS.map((band) => (
        <div key={band} className={band}>
          <b>{WORDS[band]}</b>
          <svg viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" aria-hidden="true">
            {MARKS.map((code) => (
              <path key={code} className="mark" d={`M${code + 0.5} 0V${HIGH}`} />
            ))}
            <path className="bars" d={barsPath(tally.bars[band])} />
          </svg>
        </div>
      ))}
      <div className="codes" aria-hidden="true">
        <b />
        <span>
          <i style={{ left: '0' }}>0</i>
          <i style={{ left: `${(100 * 118) / WIDE}%` }}>118 middle grey</i>
          <i style={{ right: '0' }}>255</i>
        </span>
      </div>
    </div>
  )
}

/** High by the root of the share, so that a small shine is seen beside a large backdrop. */
function barsPath(bars: readonly number[]): string {
  const most = Math.sqrt(Math.max(...bars, 1e-9))
  return bars
    .map((share, i) => {
      const high = (HIGH * Math.sqrt(share)) / most
      return share > 0 ? `M${i * EACH} ${HIGH}v${-high.toFixed(1)}h${EACH}V${HIGH}z` : ''
    })
    .join('')
}

/** Of luminance, red, green and blue, between which codes nine tenths of the pixels lie. */
function describe({ bars }: Tally): string {
  return TALLY_BANDS.map((band) => {
    const [low, high] = [0.05, 0.95].map((share) => EACH * barReaching(bars[band], share))
    return `${band} mostly from code ${low} to ${high + EACH - 1}`
  }).join(', ')
}

function barReaching(bars: readonly number[], share: number): number {
  let sum = 0
  return bars.findIndex((bar) => {
    sum += bar
    return sum >= share
  })
}
