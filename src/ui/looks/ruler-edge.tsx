import { cropScale, isCrop, type Look } from '../../rig'
import { useDerived } from '../derived'

/** Marks and figures that a print's edge has room for on the narrowest page. */
const MOST_MARKS = 72
const MOST_FIGURES = 8
const STEPS_MM = [1, 2, 5, 10, 20, 50, 100, 200, 500]

const stepFor = (widthMm: number, most: number): number =>
  STEPS_MM.find((step) => widthMm / step <= most) ?? 10 ** Math.ceil(Math.log10(widthMm / most))

/** Of the picture's own crop. */
export function RulerEdge({ look }: { look: Look }) {
  const rig = useDerived((derived) => derived.rig)
  return rig && isCrop(look) ? <Millimetres look={look} widthMm={cropScale(rig, look).widthMm} /> : null
}

/** Millimetres along the lower edge of a crop's print, true at the eye or cheek in its middle. */
export function Millimetres({ look, widthMm }: { look: Look; widthMm: number }) {
  const [mark, figure] = [stepFor(widthMm, MOST_MARKS), stepFor(widthMm, MOST_FIGURES)]
  const marks = Array.from({ length: Math.floor(widthMm / mark) + 1 }, (_, i) => i * mark)
  const at = (mm: number) => `${((100 * mm) / widthMm).toFixed(3)}%`
  return (
    <svg
      className="ruler-edge"
      role="img"
      aria-label={`Scale at the ${look}: ${Math.round(widthMm)} mm across, a mark each ${mark === 1 ? '' : `${mark} `}mm`}
    >
      {marks.map((mm) => (
        <line key={mm} x1={at(mm)} x2={at(mm)} y1="0" y2={mm % figure === 0 ? '0.5rem' : '0.25rem'} />
      ))}
      {marks
        .filter((mm) => mm % figure === 0 && mm < 0.92 * widthMm)
        .map((mm) => (
          <text key={mm} x={at(mm)} dx="0.1875rem" y="1.0625rem">
            {mm === 0 ? 'mm' : mm}
          </text>
        ))}
    </svg>
  )
}
