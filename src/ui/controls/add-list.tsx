import { addObject, addPanel, addSource, type Sitting, setBackdrop, setObject } from '../../sitting'
import { edit, editAndSelect, select, useSitting } from '../store'
import { Opens } from './opens'

type Added = { sitting: Sitting; id: string }

const PANELS = ['white', 'silver', 'gold', 'black'] as const

/** A card as a class has it: 18 % grey, or white. */
function cardOf(sitting: Sitting, reflectance: number): Added {
  const added = addObject(sitting, 'card')
  return { id: added.id, sitting: setObject(added.sitting, added.id, { reflectance }) }
}

const ENTRIES: readonly { word: string; make(sitting: Sitting): Added }[] = [
  { word: 'source', make: (sitting) => addSource(sitting) },
  ...PANELS.map((kind) => ({ word: `${kind} panel`, make: (sitting: Sitting) => addPanel(sitting, kind) })),
  { word: 'matt ball', make: (sitting) => addObject(sitting, 'ball') },
  { word: 'grey card', make: (sitting) => cardOf(sitting, 0.18) },
  { word: 'white card', make: (sitting) => cardOf(sitting, 0.88) },
  { word: 'flag before a card', make: (sitting) => addObject(sitting, 'flag-before-card') },
]

/** 'add': what can be carried into the room. */
export function AddList() {
  const noBackdrop = useSitting().backdrop === null
  return (
    <Opens word="add" toLeft>
      {(close) => (
        <>
          {ENTRIES.map(({ word, make }) => (
            <button
              key={word}
              type="button"
              className="word"
              onClick={() => {
                close()
                editAndSelect(`${word} added`, make)
              }}
            >
              {word}
            </button>
          ))}
          {noBackdrop && (
            <button
              type="button"
              className="word"
              onClick={() => {
                close()
                if (edit('backdrop hung', (sitting) => setBackdrop(sitting, {}))) select('backdrop')
              }}
            >
              backdrop
            </button>
          )}
        </>
      )}
    </Opens>
  )
}
