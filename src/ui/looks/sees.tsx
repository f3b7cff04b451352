import { type KeyboardEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { drawHalfRoom, type HalfRoomDrawing, legible } from '../../paper'
import { flatReading, type SeenRoom, seeingPlace, seeingPlaces } from '../../readings'
import { useDerived } from '../derived'
import type { Placement } from '../drawing/fit'
import { ShapeView } from '../drawing/shape'
import { SEES_WORD } from '../openers'
import { setSession, useSession, useSitting } from '../store'
import { type Exposing, paintTones, tonesOf } from './tones'

/** The half-room before a place of the skin, and what of it brings the light. It stands where the elevation stands. */
export function Sees() {
  const chosen = useSession((session) => session.sees)
  const sitting = useSitting()
  const rig = useDerived((derived) => derived.rig)
  const sees = useDerived((derived) => derived.sees)
  const exposure = useDerived((derived) => derived.read?.exposure)
  const room = sees && sees.place === chosen ? sees.room : null
  const place = chosen === null || !rig ? null : seeingPlace(sitting, rig, chosen)
  const name = place?.name
  const drawing = useMemo(
    () => (rig && room && name ? drawHalfRoom({ sitting, rig, room, place: name }) : null),
    [sitting, rig, room, name],
  )
  if (!rig || !place) return null
  const { fNumber, iso } = sitting.camera
  const exposing = { factorStops: exposure?.factorStops ?? 0, fNumber: exposure?.fNumber ?? fNumber, iso }
  const close = () => {
    document.getElementById(SEES_WORD)?.focus()
    setSession({ sees: null })
  }
  const closeKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') close()
  }
  return (
    <section className="sees" aria-label="What the skin sees" onKeyDown={closeKey}>
      <div className="sees-sheet">
        <div className="sees-head">
          <h2 id="sees-title">Seen from the</h2>
          <select
            className="field"
            aria-labelledby="sees-title"
            value={place.id}
            onChange={(event) => setSession({ sees: event.currentTarget.value })}
          >
            {seeingPlaces(sitting, rig).map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
          <button type="button" className="word" onClick={close}>
            close
          </button>
        </div>
        {drawing && room ? (
          <>
            <Disc drawing={drawing} room={room} exposing={exposing} />
            <Shares drawing={drawing} reading={flatReading(room, exposing, iso)} />
          </>
        ) : (
          <p className="shares">looking</p>
        )}
        <p className="meaning">
          As a mirror held there shows it: right is right on the plan. Area times brightness in this disc is the light
          that falls on that skin. Skin and cloth count as matt.
        </p>
      </div>
    </section>
  )
}

function Shares({ drawing, reading }: { drawing: HalfRoomDrawing; reading: string | null }) {
  return (
    <div className="shares">
      <div className="value">{reading ?? '–'}</div>{' '}
      <p>{reading ? 'falls there, disc flat on the skin:' : 'no light falls there.'}</p>{' '}
      <ul>
        {drawing.shares.map(({ name, percent }) => (
          <li key={name}>
            <b>{percent}</b> {name}
          </li>
        ))}
      </ul>
    </div>
  )
}

/** Room under the disc for the words that tell left from right, as a share of the text. */
const SIDES_EM = 1.4

function Disc({ drawing, room, exposing }: { drawing: HalfRoomDrawing; room: SeenRoom; exposing: Exposing }) {
  const box = useRef<HTMLDivElement>(null)
  const canvas = useRef<HTMLCanvasElement>(null)
  const [{ width, height, textPx }, setSize] = useState({ width: 240, height: 260, textPx: 15 })
  useLayoutEffect(() => {
    const element = box.current
    if (!element) return
    const observer = new ResizeObserver(() =>
      setSize({
        width: element.clientWidth,
        height: element.clientHeight,
        textPx: Number.parseFloat(getComputedStyle(element).fontSize),
      }),
    )
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  const { factorStops, fNumber, iso } = exposing
  useEffect(() => {
    if (canvas.current) paintTones(canvas.current, tonesOf(room, { factorStops, fNumber, iso }), room.side)
  }, [room, factorStops, fNumber, iso])
  const radius = Math.max(20, Math.min(width, height - SIDES_EM * textPx) / 2 - 2)
  const at: Placement = { scale: radius, x: width / 2, y: radius + 2 }
  const lines = drawing.shapes.filter(({ kind }) => kind !== 'text')
  const words = legible(
    drawing.shapes.filter(({ kind }) => kind === 'text'),
    at,
    textPx,
  )
  return (
    <div className="disc" ref={box}>
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a bare canvas takes no focus */}
      <canvas
        ref={canvas}
        aria-hidden="true"
        style={{ left: at.x - radius, top: at.y - radius, width: 2 * radius, height: 2 * radius }}
      />
      <svg className="drawing" role="img" aria-label={drawing.description}>
        {/* Every line twice, light on dark: the tones under it are both. */}
        {(['under', 'over'] as const).map((layer) => (
          <g key={layer} className={layer}>
            {lines.map((shape, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
              <ShapeView key={i} shape={shape} at={at} />
            ))}
          </g>
        ))}
        {words.map((shape, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
          <ShapeView key={i} shape={shape} at={at} />
        ))}
      </svg>
    </div>
  )
}
