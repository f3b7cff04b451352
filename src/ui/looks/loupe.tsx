import { type KeyboardEvent, useLayoutEffect, useMemo, useState } from 'react'
import { cellAt, cellLuminance } from '../../camera'
import { segmentHitsRectangle } from '../../photometry'
import { type EdgeCut, edgeCut, fitted, type Measured, shareAt } from '../../readings'
import { CROP_PX, type Rig, rigSeen } from '../../rig'
import { dot, subtract, type Vec3 } from '../../space'
import { useDerived } from '../derived'
import type { ShownPlate } from '../picture/protocol'
import { setSession, useSitting } from '../store'
import { endsOf, placeInLoupe, tickAt } from './edge-span'

const cuts = new WeakMap<Rig, EdgeCut | null>()

function cutOf(rig: Rig | null): EdgeCut | null {
  if (!rig) return null
  const known = cuts.get(rig)
  if (known !== undefined) return known
  const cut = edgeCut(rig)
  cuts.set(rig, cut)
  return cut
}

/** From where to where the cut goes from the middle ray, as shares of the edge's full width, and at least, metres. On a face it ends before the nose itself. */
const REACH = { flag: [-0.75, 0.75], nose: [-0.3, 0.7] } as const
const LEAST_M = 0.004

function reachOf({ fullM, of }: EdgeCut): readonly [number, number] {
  const unit = Math.max(fullM, 2 * LEAST_M)
  return [REACH[of][0] * unit, REACH[of][1] * unit]
}

const between = ([from, to]: readonly [number, number], count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))

/** On a face nothing but the picture knows how bright full light would be at a place: its rise is shown as it stands. */
function toBrightest(measured: readonly Measured[]): readonly { readonly atM: number; readonly share: number }[] {
  const most = Math.max(...measured.map(({ luminance }) => luminance))
  return measured.map(({ atM, luminance }) => ({ atM, share: luminance / most }))
}

/** Where a place lies in the picture, shares from the upper left corner; null: out of it. */
function placeIn(rig: Rig, point: Vec3) {
  const at = placeInLoupe(rig, point)
  return at && [at.x, at.y].every((share) => share > 0 && share < 1) ? at : null
}

/** Whether a place of the cut is in sight: on the card, and not behind the flag. On a face all of them count as seen. */
function inSight(rig: Rig): (point: Vec3) => boolean {
  const flag = rig.surfaces.find(({ kind }) => kind === 'flag')
  const card = flag && rig.surfaces.find(({ id }) => `${id}.flag` === flag.id)
  if (!flag || !card) return () => true
  const lens = rigSeen(rig, 'edge').view.frame.origin
  const { centre, halfU, halfV } = card.rect
  return (point) => {
    const out = subtract(point, centre)
    const isOn = [halfU, halfV].every((half) => Math.abs(dot(out, half)) <= dot(half, half))
    return isOn && !segmentHitsRectangle(lens, point, flag.rect)
  }
}

/** Over the loupe: the cut, with a tick where the edge begins and where it ends. */
export function LoupeMarks() {
  const rig = useDerived((derived) => derived.rig)
  const cut = cutOf(rig)
  if (!rig || !cut) return null
  const along = between(reachOf(cut), 41)
    .map((atM) => cut.place(atM))
    .filter(inSight(rig))
  const pathOf = (points: readonly ReturnType<EdgeCut['place']>[]) => {
    const seen = points.flatMap((point) => placeIn(rig, point) ?? [])
    return seen.length > 1
      ? `M${seen.map(({ x, y }) => `${(100 * x).toFixed(2)} ${(100 * y).toFixed(2)}`).join('L')}`
      : ''
  }
  const path = [along, ...endsOf(cut).map((atM) => tickAt(cut, atM))].map(pathOf).join('')
  return (
    <svg
      className="loupe-marks"
      viewBox="0 0 100 100"
      preserveAspectRatio="none"
      role="img"
      aria-label="The cut that is measured"
    >
      <path d={path} />
      <path className="over" d={path} />
    </svg>
  )
}

/** What the picture has along the cut: its mean over a breadth along the edge, where the lens sees what is lit and not what throws the shadow. */
function measure(rig: Rig, cut: EdgeCut, plate: ShownPlate): readonly Measured[] {
  const isSeen = inSight(rig)
  return between(reachOf(cut), POINTS).flatMap((atM): Measured[] => {
    const cells = ASIDE_M.flatMap((asideM) => {
      const point = cut.place(atM, asideM)
      const at = placeIn(rig, point)
      if (!at || !isSeen(point)) return []
      return [cellLuminance(plate, cellAt(plate, at.x, at.y))]
    })
    if (cells.length === 0) return []
    return [{ atM, luminance: cells.reduce((sum, value) => sum + value, 0) / cells.length }]
  })
}
const POINTS = 121
const ASIDE_M = [-0.003, -0.002, -0.001, 0, 0.001, 0.002, 0.003]

/** The edge of a shadow under the loupe: the light along a cut across it, with the closed form drawn over it. */
export function Loupe() {
  const rig = useDerived((derived) => derived.rig)
  const sitting = useSitting()
  // Of this set and through this loupe: a moment after a change it still is of the one before.
  const plate = useDerived(({ plate: last }) => (last?.sitting === sitting && last.look === 'edge' ? last : null))
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  const cut = cutOf(rig)
  const measured = useMemo(() => (rig && cut && plate ? measure(rig, cut, plate) : null), [rig, cut, plate])
  const fit = useMemo(() => (cut?.of === 'flag' && measured ? fitted(measured, cut.rise) : null), [cut, measured])
  const points = fit?.points ?? (measured ? toBrightest(measured) : [])
  const close = () => {
    document.querySelector<HTMLElement>('.looks [aria-label="edge loupe"]')?.focus()
    setSession({ look: 'camera' })
  }
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'Escape') close()
  }
  return (
    <section className="sees" aria-labelledby="loupe-title" onKeyDown={keys}>
      <div className="loupe-sheet">
        <div className="sees-head">
          <h2 id="loupe-title">{cut ? TITLES[cut.of] : 'Edge of a shadow'}</h2>
          <button type="button" className="word" onClick={close}>
            close
          </button>
        </div>
        {cut ? (
          <>
            <Profile cut={cut} points={points} />
            <p className="keys">
              <span>dashed: computed, for a straight edge lit by {cut.letter}</span>
              <span>solid: measured in the picture</span>
            </p>
            <p>{words(cut, fit)}</p>
            {points.length === 0 && <p>{failed ? 'There is no picture to measure.' : 'waiting for the picture'}</p>}
            <p>
              {LIMITS[cut.of]} <OneToOne />
            </p>
          </>
        ) : (
          <p>
            The key throws no edge here that the loupe could look at. Turn it before the face, or add a flag before a
            card.
          </p>
        )}
      </div>
    </section>
  )
}

const TITLES = { nose: 'Edge of the nose shadow', flag: 'Edge of the flag’s shadow' }
const LIMITS = {
  nose: 'On a face the line has the turn and the tone of the skin in it as well, in shares of its brightest; a flag before a card is measured alone.',
  flag: 'What is left between the two is the noise of the picture, and that the card sees the lamp from farther off than the edge does.',
}

const mm = (m: number): string => (1000 * m).toFixed(m < 0.005 ? 1 : 0)

function words({ fullM, tenToNinetyM }: EdgeCut, fit: ReturnType<typeof fitted>): string {
  const form = `${mm(fullM)} mm wide, square to the light; ${mm(tenToNinetyM)} mm from 10 to 90 % by the closed form`
  if (!fit) return `${form}.`
  const seen = fit.tenToNinetyM === null ? '' : `, ${mm(fit.tenToNinetyM)} in the picture`
  return `${form}${seen}. They differ by ${(100 * fit.rms).toFixed(fit.rms < 0.0995 ? 1 : 0)} % of the light.`
}

/** Whether the page has room for the loupe pixel by pixel. */
function OneToOne() {
  const [isWhole, setWhole] = useState(true)
  useLayoutEffect(() => {
    const canvas = document.querySelector('.print.loupe canvas')
    if (!canvas) return
    const observer = new ResizeObserver(() =>
      setWhole(canvas.clientHeight * window.devicePixelRatio > CROP_PX.edge - 2),
    )
    observer.observe(canvas)
    return () => observer.disconnect()
  }, [])
  return (
    <>
      {isWhole
        ? 'One pixel of a frame 1,920 high on one of the screen.'
        : 'There is less room than its pixels take: it is drawn smaller.'}
    </>
  )
}

const GRAPH = { width: 400, height: 100 }

function Profile({
  cut,
  points,
}: {
  cut: EdgeCut
  points: readonly { readonly atM: number; readonly share: number }[]
}) {
  const [from, to] = reachOf(cut)
  const x = (atM: number) => (GRAPH.width * (atM - from)) / (to - from)
  const y = (share: number) => GRAPH.height * (1 - Math.min(1.1, Math.max(-0.1, share)))
  const path = (line: readonly { readonly atM: number; readonly share: number }[]) =>
    line.map(({ atM, share }, i) => `${i === 0 ? 'M' : 'L'}${x(atM).toFixed(1)} ${y(share).toFixed(1)}`).join('')
  const form = between([from, to], 121).map((atM) => ({ atM, share: shareAt(cut.rise, atM) }))
  const stepM = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05].find((step) => (to - from) / step <= 10) ?? 0.1
  const first = Math.ceil(from / stepM - 1e-9)
  const ticks = Array.from({ length: Math.floor(to / stepM + 1e-9) - first + 1 }, (_, i) => (first + i) * stepM)
  const percent = (value: number) => `${(100 * value) / GRAPH.height}%`
  return (
    <svg
      className="profile"
      role="img"
      aria-label={`Light in per cent of full, over millimetres across the edge, from the shadow to full light: ${Math.round(1000 * (to - from))} mm; dashed as computed, solid as measured`}
    >
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${GRAPH.width} ${GRAPH.height}`}
        width="100%"
        height="100%"
        preserveAspectRatio="none"
        overflow="visible"
      >
        {[0, 0.1, 0.9, 1].map((share) => (
          <path key={share} d={`M0 ${y(share)}h${GRAPH.width}`} />
        ))}
        {ticks.map((atM) => (
          <path key={atM} d={`M${x(atM)} ${y(0)}v4`} />
        ))}
        <path className="measured" d={path(points)} />
        <path className="form" d={path(form)} />
      </svg>
      {ticks.map((atM) => (
        <text key={atM} x={`${(100 * x(atM)) / GRAPH.width}%`} y={percent(y(0))} dy="1.2em" textAnchor="middle">
          {`${Math.round(1000 * atM)}`.replace('-', '−')}
        </text>
      ))}
      {(
        [
          [0.1, '10 % of full light', '100%', 'end'],
          [0.9, '90 % of full light', '0', 'start'],
        ] as const
      ).map(([share, text, at, anchor]) => (
        <text key={text} x={at} y={percent(y(share))} dy={share > 0.5 ? '1em' : '-0.2em'} textAnchor={anchor}>
          {text}
        </text>
      ))}
      <text x="100%" y={percent(y(0))} dy="2.4em" textAnchor="end">
        mm across the edge, 0 at its middle
      </text>
    </svg>
  )
}
