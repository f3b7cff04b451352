import { emptySitting, type Sitting } from '../../sitting'
import { SITTINGS_WORD } from '../openers'
import { scenes } from '../scenes'
import { openSitting, setSession, useSession } from '../store'
import { useContact } from './contact-desk'
import { Over } from './over'
import { Print } from './print'
import { useDrawn } from './use-drawn'

const TITLE = 'sittings-title'

/** The sittings that come with the program, each with its picture, drawn while the page is open. */
export function ReadySittings() {
  const choosing = useSession((session) => session.choosing)
  return choosing && <Choice />
}

const close = (): void => {
  setSession({ choosing: false })
  requestAnimationFrame(() => document.getElementById(SITTINGS_WORD)?.focus())
}

function choose(sitting: Sitting): void {
  openSitting(sitting, `${sitting.title} opened`)
  close()
}

const SITTINGS = scenes.map(({ sitting }) => sitting)

function Choice() {
  const cells = useDrawn(SITTINGS, 'metres')
  const fault = useContact((state) => state.fault)
  return (
    <Over titled={TITLE} onClose={close}>
      <header className="contact-head">
        <h2 id={TITLE}>Ready sittings</h2>
        <p className="whereabouts">Opening one is a step that undo takes back.</p>
        <button type="button" className="word" onClick={() => choose(emptySitting())}>
          empty sitting, to build from a sheet
        </button>
        <button type="button" className="word" onClick={close}>
          close
        </button>
      </header>
      {fault && <p className="said">{fault}</p>}
      <ul className="cells ready">
        {scenes.map(({ title, sitting }, i) => (
          <li
            key={title}
            style={{ ['--aspect' as string]: sitting.camera.sensorWidthMm / sitting.camera.sensorHeightMm }}
          >
            <Print bitmap={cells[i]?.bitmap ?? null} name={title} />
            <div className="caption">
              <button type="button" className="word under" onClick={() => choose(sitting)}>
                {title}
              </button>
              <p>{sitting.note}</p>
            </div>
          </li>
        ))}
      </ul>
    </Over>
  )
}
