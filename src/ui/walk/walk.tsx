import {
  type KeyboardEvent,
  type PointerEvent,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
  type WheelEvent,
} from 'react'
import { Color, PerspectiveCamera, Scene, Vector3, WebGLRenderer } from 'three'
import type { Rig } from '../../rig'
import type { Vec3 } from '../../space'
import { useDerived } from '../derived'
import { whatIsMissing } from '../picture/missing'
import { inHand, setSession, useSession } from '../store'
import { eyeAt, keyed, nearer, type Orbit, START, turned, WALK_WORD } from './orbit'
import { dispose, type Ink, lettersOf, setLines } from './set-lines'

/** Ready places to look from. */
const PLACES: readonly { readonly word: string; readonly orbit: Orbit }[] = [
  { word: 'from the lens', orbit: { roundDeg: 0, upDeg: 5, awayM: 3 } },
  { word: 'aside', orbit: { roundDeg: 90, upDeg: 5, awayM: 4 } },
  { word: 'above', orbit: { roundDeg: 0, upDeg: 89, awayM: 5 } },
  { word: 'behind', orbit: { roundDeg: 160, upDeg: 20, awayM: 4 } },
]
/** Degrees a pixel of drag; and how fast a wheel comes nearer. */
const DRAG = 0.35
const WHEEL = 0.001
const FIELD_DEG = 40

/** The set as lines in space, to go round by hand, touch and keys. It stands where the plan stands, and shows; the plan moves things. */
export default function Walk() {
  const rig = useDerived((derived) => derived.rig)
  const [orbit, setOrbit] = useState(START)
  const [missing] = useState(() => whatIsMissing(document.createElement('canvas')))
  const box = useRef<HTMLElement>(null)
  // The word that was pressed is covered: the keys go on here.
  useEffect(() => box.current?.focus(), [])
  const close = () => {
    setSession({ walking: false })
    requestAnimationFrame(() => document.getElementById(WALK_WORD)?.focus())
  }
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'Escape') close()
  }
  return (
    <section className="walk" aria-labelledby="walk-title" tabIndex={-1} ref={box} onKeyDown={keys}>
      <div className="sees-head">
        <h2 id="walk-title">Walk round</h2>
        {PLACES.map(({ word, orbit: place }) => (
          <button key={word} type="button" className="word" onClick={() => setOrbit(place)}>
            {word}
          </button>
        ))}
        <button type="button" className="word" onClick={close}>
          close
        </button>
      </div>
      {missing ? <p className="said">{missing}</p> : rig && <Space rig={rig} orbit={orbit} onOrbit={setOrbit} />}
    </section>
  )
}

interface SpaceProps {
  readonly rig: Rig
  readonly orbit: Orbit
  onOrbit(orbit: Orbit): void
}

function Space({ rig, orbit, onOrbit }: SpaceProps) {
  const box = useRef<HTMLDivElement>(null)
  const letters = useLetters(box, rig, orbit)
  const held = useRef(new Map<number, readonly [number, number]>())
  const press = (event: PointerEvent<HTMLDivElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    held.current.set(event.pointerId, [event.clientX, event.clientY])
  }
  const move = (event: PointerEvent) => {
    const before = held.current.get(event.pointerId)
    if (!before) return
    const now = [event.clientX, event.clientY] as const
    const [other] = [...held.current].filter(([id]) => id !== event.pointerId).map(([, at]) => at)
    held.current.set(event.pointerId, now)
    if (other) onOrbit(nearer(orbit, Math.max(0.2, apart(now, other) / Math.max(1, apart(before, other)))))
    // The set goes with the hand: drawn to the right, one has gone round to the left.
    else onOrbit(turned(orbit, -DRAG * (now[0] - before[0]), DRAG * (now[1] - before[1])))
  }
  const release = (event: PointerEvent) => held.current.delete(event.pointerId)
  const key = (event: KeyboardEvent) => {
    const next = keyed(orbit, event.key)
    if (!next) return
    event.preventDefault()
    onOrbit(next)
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a view that is turned by hand and keys is no fieldset
    <div
      ref={box}
      className="space"
      role="group"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys go round it
      tabIndex={0}
      aria-label={`The set ${wordsOf(orbit)}. Arrow keys go round it, plus and minus nearer and farther.`}
      onPointerDown={press}
      onPointerMove={move}
      onPointerUp={release}
      onPointerCancel={release}
      onKeyDown={key}
      onWheel={(event: WheelEvent) => onOrbit(nearer(orbit, Math.exp(-WHEEL * event.deltaY)))}
    >
      {letters.map(({ id, words, x, y, isHeld }) => (
        <span key={id} aria-hidden="true" data-held={isHeld || undefined} style={{ left: x, top: y }}>
          {words}
        </span>
      ))}
      <p>{wordsOf(orbit)}</p>
    </div>
  )
}

const apart = ([a, b]: readonly [number, number], [c, d]: readonly [number, number]): number => Math.hypot(a - c, b - d)

function wordsOf({ roundDeg, upDeg, awayM }: Orbit): string {
  const round = Math.round(Math.abs(roundDeg))
  const side = round === 0 || round === 180 ? '' : roundDeg > 0 ? ' right' : ' left'
  return `from ${round}°${side}, ${Math.round(upDeg)}° up, ${awayM.toFixed(1)} m off`
}

interface Letter {
  readonly id: string
  readonly words: string
  readonly x: number
  readonly y: number
  readonly isHeld: boolean
}

/** Draws the set into a canvas of its own whenever it, the place or the colours change; gives back where its letters lie. */
function useLetters(box: React.RefObject<HTMLDivElement | null>, rig: Rig, orbit: Orbit): readonly Letter[] {
  const stage = useRef<{ renderer: WebGLRenderer; camera: PerspectiveCamera; scene: Scene } | null>(null)
  const selected = useSession((session) => session.selected)
  const also = useSession((session) => session.also)
  const theme = useSession((session) => session.theme)
  const [size, setSize] = useState({ width: 0, height: 0 })
  const [letters, setLetters] = useState<readonly Letter[]>([])
  useLayoutEffect(() => {
    const element = box.current
    if (!element) return
    const renderer = new WebGLRenderer({ antialias: true, alpha: true })
    renderer.setPixelRatio(window.devicePixelRatio)
    renderer.domElement.setAttribute('aria-hidden', 'true')
    element.prepend(renderer.domElement)
    stage.current = { renderer, camera: new PerspectiveCamera(FIELD_DEG, 1, 0.05, 100), scene: new Scene() }
    const observer = new ResizeObserver(() => setSize({ width: element.clientWidth, height: element.clientHeight }))
    observer.observe(element)
    return () => {
      observer.disconnect()
      renderer.domElement.remove()
      renderer.dispose()
      renderer.forceContextLoss()
      stage.current = null
    }
  }, [box])
  useEffect(() => {
    const on = stage.current
    if (!on) return
    const lines = setLines(rig, inHand({ selected, also }), inkOf(theme))
    on.scene.add(lines)
    return () => {
      on.scene.remove(lines)
      dispose(lines)
    }
  }, [rig, selected, also, theme])
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever changes what is drawn draws it again
  useEffect(() => {
    const on = stage.current
    if (!on || size.width === 0) return
    const at = middleOf(rig)
    on.renderer.setSize(size.width, size.height)
    on.camera.aspect = size.width / size.height
    on.camera.position.set(...eyeAt(orbit, at))
    on.camera.lookAt(...at)
    on.camera.updateProjectionMatrix()
    on.camera.updateMatrixWorld()
    on.renderer.render(on.scene, on.camera)
    setLetters(placed(rig, on.camera, size, inHand({ selected, also })))
  }, [rig, orbit, size, selected, also, theme])
  return letters
}

/** One looks at the sitter's chest, so that stands and lamps share the view. */
const middleOf = ({ figures }: Rig): Vec3 => {
  const eyes = figures[0]?.posed.eyeMidpoint ?? [0, 1.2, 0]
  return [eyes[0], 0.9 * eyes[1], eyes[2]]
}

function placed(
  rig: Rig,
  camera: PerspectiveCamera,
  { width, height }: { width: number; height: number },
  held: readonly string[],
) {
  return lettersOf(rig).flatMap(({ id, words, at }): Letter[] => {
    const seen = new Vector3(...at).project(camera)
    if (seen.z > 1 || Math.abs(seen.x) > 0.97 || Math.abs(seen.y) > 0.95) return []
    return [{ id, words, x: (width * (1 + seen.x)) / 2, y: (height * (1 - seen.y)) / 2, isHeld: held.includes(id) }]
  })
}

/** As the page has them. theme: whose they are; asked again when it changes. */
function inkOf(_theme: string): Ink {
  const style = getComputedStyle(document.documentElement)
  const color = (name: string) => new Color().setStyle(rgbOf(style.getPropertyValue(name)))
  return { sheet: color('--panel'), line: color('--line'), thin: color('--line3'), pencil: color('--pencil') }
}

/** A colour that the page knows in any notation, in the one that is understood everywhere. */
function rgbOf(color: string): string {
  const context = document.createElement('canvas').getContext('2d')
  if (!context) return '#888888'
  context.fillStyle = color
  context.fillRect(0, 0, 1, 1)
  const [red, green, blue] = context.getImageData(0, 0, 1, 1).data
  return `rgb(${red}, ${green}, ${blue})`
}
