import { memo, useId } from 'react'
import { insideOf, type Point2, type Shape } from '../../paper'
import { type Placement, toPane } from './fit'

type Outline = Extract<Shape, { kind: 'line' | 'circle' }>
type Words = Extract<Shape, { kind: 'text' }>
type Window = Extract<Shape, { kind: 'window' }>

const classes = (shape: Outline): string =>
  ['shape', shape.weight, shape.dash === 'solid' ? '' : shape.dash, shape.pencil ? 'pencil' : '', `fill-${shape.fill}`]
    .filter(Boolean)
    .join(' ')

/** An outline's points closer together than this are one, pixels: a cut through a head has hundreds. */
const APART_PX = 0.6

/** Points as SVG writes them, to a tenth of a pixel; the first and the last are kept. */
function inPixels(points: readonly Point2[], at: Placement): string {
  let [text, lastX, lastY] = ['', Infinity, Infinity]
  points.forEach((point, i) => {
    const [x, y] = toPane(at, point)
    if (i < points.length - 1 && Math.abs(x - lastX) + Math.abs(y - lastY) < APART_PX) return
    text += ` ${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`
    lastX = x
    lastY = y
  })
  return text.trimStart()
}

/** One shape of a drawing as an SVG element. Metres become pixels here, so that line weights and figures keep theirs. */
export const ShapeView = memo(function ShapeView({ shape, at }: { shape: Shape; at: Placement }) {
  switch (shape.kind) {
    case 'line': {
      const points = inPixels(shape.points, at)
      return shape.closed ? (
        <polygon className={classes(shape)} points={points} />
      ) : (
        <polyline className={classes(shape)} points={points} />
      )
    }
    case 'circle': {
      const [cx, cy] = toPane(at, shape.centre)
      return <circle className={classes(shape)} cx={cx} cy={cy} r={shape.radiusM * at.scale} />
    }
    case 'text':
      return <WordsView words={shape} at={at} />
    case 'window':
      return <WindowView window={shape} at={at} />
  }
})

/** From the point to the base line. */
const DY = { on: undefined, over: '-0.3em', under: '1.05em' }
const TONES = { ink: 'ink', ink2: '', pencil: 'pencil-text' }

function WordsView({ words, at }: { words: Words; at: Placement }) {
  const [x, y] = toPane(at, words.at)
  const turn = words.angleDeg === 0 ? {} : { transform: `rotate(${words.angleDeg} ${x} ${y})` }
  return (
    <text
      className={`${words.size} ${TONES[words.tone]}`}
      x={x}
      y={y}
      dy={DY[words.stands]}
      textAnchor={words.anchor}
      {...turn}
    >
      {words.text}
    </text>
  )
}

/** What is enlarged beside the drawing: its own metres, magnified about one point, cut off by a circle. */
function WindowView({ window, at }: { window: Window; at: Placement }) {
  const id = useId()
  const [cx, cy] = toPane(at, window.centre)
  const radius = window.radiusM * at.scale
  const from = toPane(at, window.from)
  const inside = insideOf(window, at)
  return (
    <>
      <clipPath id={id}>
        <circle cx={cx} cy={cy} r={radius} />
      </clipPath>
      <line className="shape dimension" x1={from[0]} y1={from[1]} x2={cx} y2={cy} />
      <circle className="shape thin fill-sheet" cx={cx} cy={cy} r={radius} />
      <g className="enlarged" clipPath={`url(#${id})`}>
        {window.shapes.map((shape, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
          <ShapeView key={i} shape={shape} at={inside} />
        ))}
      </g>
    </>
  )
}
