import { OrbitControls } from '@react-three/drei'
import { Canvas, useFrame, useThree } from '@react-three/fiber'
import {
  type ComponentRef,
  type KeyboardEvent,
  type RefObject,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react'
import { setConsoleFunction, Vector3 } from 'three'
import type { Rig } from '../../rig'
import { radians, type Vec3 } from '../../space'
import { useDerived } from '../derived'
import { whatIsMissing } from '../picture/missing'
import { inHand, useSession } from '../store'
import { AWAY_M, eyeAt, keyed, type Orbit, orbitOf, START, UP_DEG } from './orbit'
import { type Ink, type Letter, lettersOf, SetLines } from './set-lines'
import { closeWalk } from './soon'

/** Ready places to look from. */
const PLACES: readonly { readonly word: string; readonly orbit: Orbit }[] = [
  { word: 'from the lens', orbit: { roundDeg: 0, upDeg: 5, awayM: 3 } },
  { word: 'aside', orbit: { roundDeg: 90, upDeg: 5, awayM: 4 } },
  { word: 'above', orbit: { roundDeg: 0, upDeg: 89, awayM: 5 } },
  { word: 'behind', orbit: { roundDeg: 160, upDeg: 20, awayM: 4 } },
]
const FIELD_DEG = 40

// Fiber makes a clock that three tells us not to make: nothing that a person at the page could do.
setConsoleFunction((kind, ...words) => {
  if (!String(words[0]).startsWith('THREE.Clock')) console[kind](...words)
})

/** The set as lines in space, to go round by hand, touch and keys. It stands where the plan stands, and shows; the plan moves things. */
export default function Walk() {
  const rig = useDerived((derived) => derived.rig)
  const [orbit, setOrbit] = useState(START)
  const [missing] = useState(() => whatIsMissing(document.createElement('canvas')))
  const box = useRef<HTMLElement>(null)
  // The word that was pressed is covered: the keys go on here.
  useEffect(() => box.current?.focus(), [])
  const keys = (event: KeyboardEvent) => {
    if (event.key === 'Escape') closeWalk()
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
        <button type="button" className="word" onClick={closeWalk}>
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
  const selected = useSession((session) => session.selected)
  const also = useSession((session) => session.also)
  const theme = useSession((session) => session.theme)
  const ink = useInk(theme)
  const held = inHand({ selected, also })
  const letters = lettersOf(rig)
  const spans = useRef(new Map<string, HTMLElement>())
  const [drawn, setDrawn] = useState(false)
  const key = (event: KeyboardEvent) => {
    const next = keyed(orbit, event.key)
    if (!next) return
    event.preventDefault()
    onOrbit(next)
  }
  return (
    // biome-ignore lint/a11y/useSemanticElements: a view that is turned by hand and keys is no fieldset
    <div
      className="space"
      role="group"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: arrow keys go round it
      tabIndex={0}
      aria-label={`The set ${wordsOf(orbit)}. Arrow keys go round it, plus and minus nearer and farther.`}
      onKeyDown={key}
    >
      <Canvas frameloop="demand" flat camera={{ fov: FIELD_DEG, near: 0.05, far: 100 }} aria-hidden="true">
        <Stand at={middleOf(rig)} orbit={orbit} onOrbit={onOrbit} />
        <SetLines rig={rig} held={held} ink={ink} />
        <Letters letters={letters} spans={spans} onDrawn={() => setDrawn(true)} />
      </Canvas>
      {letters.map(({ id, words }) => (
        <span
          key={id}
          ref={(span) => {
            if (span) spans.current.set(id, span)
            else spans.current.delete(id)
          }}
          aria-hidden="true"
          data-held={held.includes(id) || undefined}
        >
          {words}
        </span>
      ))}
      <p>{wordsOf(orbit)}</p>
      {!drawn && <span className="first">drawing</span>}
    </div>
  )
}

/** Puts the eye where the orbit says, and says where hand, wheel and fingers have taken it. */
function Stand({ at, orbit, onOrbit }: { at: Vec3; orbit: Orbit; onOrbit(orbit: Orbit): void }) {
  const camera = useThree((state) => state.camera)
  const controls = useRef<ComponentRef<typeof OrbitControls>>(null)
  const [x, y, z] = at
  const target = useMemo(() => new Vector3(x, y, z), [x, y, z])
  useLayoutEffect(() => {
    camera.position.set(...eyeAt(orbit, target.toArray()))
    controls.current?.update()
  }, [camera, orbit, target])
  return (
    <OrbitControls
      ref={controls}
      target={target}
      enablePan={false}
      enableDamping={false}
      minDistance={AWAY_M[0]}
      maxDistance={AWAY_M[1]}
      minPolarAngle={radians(90 - UP_DEG[1])}
      maxPolarAngle={radians(90 - UP_DEG[0])}
      onChange={() => {
        const now = orbitOf(camera.position.toArray(), target.toArray())
        if (!isSame(now, orbit)) onOrbit(now)
      }}
    />
  )
}

interface LettersProps {
  readonly letters: readonly Letter[]
  readonly spans: RefObject<Map<string, HTMLElement>>
  onDrawn(): void
}

/** Puts each letter where its place is seen, whenever the set is drawn. */
function Letters({ letters, spans, onDrawn }: LettersProps) {
  useFrame(({ camera, size }) => {
    onDrawn()
    for (const { id, at } of letters) {
      const span = spans.current.get(id)
      if (!span) continue
      const seen = new Vector3(...at).project(camera)
      span.hidden = seen.z > 1 || Math.abs(seen.x) > 0.97 || Math.abs(seen.y) > 0.95
      span.style.left = `${(size.width * (1 + seen.x)) / 2}px`
      span.style.top = `${(size.height * (1 - seen.y)) / 2}px`
    }
  })
  return null
}

const isSame = (a: Orbit, b: Orbit): boolean =>
  Math.abs(a.roundDeg - b.roundDeg) + Math.abs(a.upDeg - b.upDeg) + Math.abs(a.awayM - b.awayM) < 1e-3

function wordsOf({ roundDeg, upDeg, awayM }: Orbit): string {
  const round = Math.round(Math.abs(roundDeg))
  const side = round === 0 || round === 180 ? '' : roundDeg > 0 ? ' right' : ' left'
  return `from ${round}°${side}, ${Math.round(upDeg)}° up, ${awayM.toFixed(1)} m off`
}

/** One looks at the sitter's chest, so that stands and lamps share the view. */
const middleOf = ({ figures }: Rig): Vec3 => {
  const eyes = figures[0]?.posed.eyeMidpoint ?? [0, 1.2, 0]
  return [eyes[0], 0.9 * eyes[1], eyes[2]]
}

/** The page's colours, asked for anew when it has put another theme on. */
function useInk(theme: string): Ink {
  const [ink, setInk] = useState(inkOf)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the page's colours follow its theme
  useEffect(() => {
    const frame = requestAnimationFrame(() => setInk(inkOf()))
    return () => cancelAnimationFrame(frame)
  }, [theme])
  return ink
}

function inkOf(): Ink {
  const style = getComputedStyle(document.documentElement)
  const color = (name: string) => rgbOf(style.getPropertyValue(name))
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
