import type { KeyboardEvent } from 'react'
import { spotOf, spreadOnSitters, type Tally } from '../../camera'
import { modifierKind } from '../../gear'
import { rigSeen, USUAL_MODELLING } from '../../rig'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { JUDGE_WORD } from '../openers'
import type { ShownPlate } from '../picture/protocol'
import { type Judging, pictureBy, setSession, useSession, useSitting } from '../store'
import { useDifference } from '../takes/plates'
import { nameOf } from '../takes/wipe'
import { formatStops } from '../values'
import { Histogram } from './histogram'
import { spotAt, spotStops, spotWords, useSpot } from './spot'
import { zeroOf } from './zero'

/** The exposure judged by the picture's own light: spot, histogram, what clips. It stands where the elevation stands. */
export function Judge() {
  const judging = useSession((session) => session.judging)
  const compared = useSession((session) => session.wipe !== null)
  const plate = useDerived((derived) => derived.plate)
  const failed = useDerived((derived) => derived.picture.kind === 'failed')
  if (!judging) return null
  const close = () => {
    document.getElementById(JUDGE_WORD)?.focus()
    setSession({ judging: null })
  }
  const closeKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') close()
  }
  return (
    <section className="sees judge" aria-labelledby="judge-title" onKeyDown={closeKey}>
      <div className="judge-sheet">
        <div className="sees-head">
          <h2 id="judge-title">Exposure</h2>
          <Switch judging={judging} name="map" word="stops map" />
          <Switch judging={judging} name="clips" word="clip marks" />
          <PictureSwitch name="metersShown" word="all meters" />
          <PictureSwitch name="backdropShown" word="backdrop" />
          <PictureSwitch name="blurred" word="blur" />
          <PictureSwitch name="byModelling" word="modelling lamps" />
          <button type="button" className="word" onClick={close}>
            close
          </button>
        </div>
        <ModellingWords />
        {plate && !compared ? (
          <>
            <SpotReading plate={plate} />
            <Histogram tally={plate.tally} />
            <p>
              {clipWords(plate.tally)} {judging.map && <MapWords plate={plate} />}
            </p>
          </>
        ) : compared && !failed ? (
          <Difference map={judging.map} />
        ) : (
          <p>{failed ? 'There is no picture to judge.' : 'waiting for the picture'}</p>
        )}
      </div>
    </section>
  )
}

/** Of two takes in one frame: by how many stops the right one differs from the left on the sitter. */
function Difference({ map }: { map: boolean }) {
  const difference = useDifference()
  const spread = difference && spreadOnSitters(difference)
  const wipe = useSession((session) => session.wipe)
  const sitting = useSitting()
  if (!spread || !wipe) return <p>waiting for both pictures</p>
  const [low, middle, high] = [spread.low, spread.middle, spread.high].map((stops) => formatStops(stops))
  return (
    <>
      <div className="spot">
        <span className="value">
          {middle} <small>in the middle of the sitter’s tones</small>
        </span>
        <p>{`Right of the divider against ${nameOf(wipe.left, sitting, wipe.inHand)}: nine tenths of the sitter lie between ${low} and ${high}.`}</p>
      </div>
      <p>
        {map
          ? 'The figures on the picture are the difference in stops.'
          : 'stops map puts the difference on the picture.'}
      </p>
    </>
  )
}

function Switch({ judging, name, word }: { judging: Judging; name: keyof Judging; word: string }) {
  return (
    <button
      type="button"
      className="word"
      aria-pressed={judging[name]}
      onClick={() => setSession({ judging: { ...judging, [name]: !judging[name] } })}
    >
      {word}
    </button>
  )
}

/** What the picture carries whether its exposure is judged or not. */
function PictureSwitch({
  name,
  word,
}: {
  name: 'metersShown' | 'backdropShown' | 'blurred' | 'byModelling'
  word: string
}) {
  const on = useSession((session) => session[name])
  return (
    <button type="button" className="word" aria-pressed={on} onClick={() => setSession({ [name]: !on })}>
      {word}
    </button>
  )
}

function ModellingWords() {
  const on = useSession((session) => pictureBy(session).byModelling)
  if (!on) return null
  return (
    <p>
      By the modelling lamps, exposed until the key is as bright as by flash. A head that names none has {usualWords}.
    </p>
  )
}

const { lamp, powerW, colourTemperatureK } = USUAL_MODELLING
const usualWords = `${lamp}, ${powerW} W, ${colourTemperatureK} K, with the dial`

function SpotReading({ plate }: { plate: ShownPlate }) {
  const place = useSpot()
  const sitting = useSitting()
  const solo = useSession((session) => session.solo)
  const spot = spotAt(plate, place)
  const words = spotWords(spot, isSteady(sitting, solo) ? sitting.camera.shutterS : null)
  const stops = spotStops(spot.stops)
  return (
    <div className="spot">
      <span className="value">
        {stops} <small>{Number.isFinite(spot.stops) ? 'stops from middle grey, spot' : ''}</small>
      </span>
      <p>{words}</p>
      <output className="unseen">{place.told ? `${stops} stops from middle grey; ${words}` : ''}</output>
    </div>
  )
}

/** Whether all that lights the picture burns on. */
const isSteady = ({ sources }: Sitting, solo: string | null): boolean =>
  sources
    .filter(({ id, on }) => (solo === null ? on : id === solo))
    .every(({ modifier }) => modifierKind(modifier.kind).burnsOn === true)

const percent = (share: number): string => `${share > 0 && share < 0.0005 ? 'under 0.1' : (100 * share).toFixed(1)} %`

function clipWords({ display, sensor, black }: Tally): string {
  const dark = black > 0 ? `; ${percent(black)} is black` : ''
  if (display === 0) return `Nothing clips${dark}.`
  return `${percent(display)} clips on the display (lines), ${percent(sensor)} on the sensor (chequers), half a stop above${dark}.`
}

function MapWords({ plate }: { plate: ShownPlate }) {
  const rig = useDerived((derived) => derived.rig)
  const look = useSession((session) => session.look)
  if (!rig) return null
  const zero = zeroOf(rigSeen(rig, look), plate)
  const grey = zero.luminance
  const { stops } = spotOf([grey, grey, grey], plate.scale)
  return (
    <>
      {zero.at
        ? `0 on the map is the near cheek as the lens sees it, ${spotStops(stops)} from middle grey.`
        : '0 on the map is middle grey.'}
    </>
  )
}
