import {
  addBackdropGrid,
  addFaceGrid,
  addMeterPlace,
  addObject,
  addPanel,
  addSitter,
  addSitterBehind,
  addSource,
  addVFlat,
  PANEL_CLOTHS,
  panelWords,
  type Sitting,
  setBackdrop,
  setObject,
} from '../../sitting'
import { useDerivedNow } from '../derived'
import { edit, editAndSelect, select, useSittingPart } from '../store'
import { besideSitter } from './free-place'
import { insideNow } from './meter-hold'
import { Opens } from './opens'
import { oppositeKey } from './opposite-key'

type Added = { sitting: Sitting; id: string }

/** A card as a class has it: 18 % grey, or white. */
function cardOf(sitting: Sitting, reflectance: number): Added {
  const added = addObject(sitting, 'card')
  return { id: added.id, sitting: setObject(added.sitting, added.id, { reflectance }) }
}

const ENTRIES: readonly { word: string; make(sitting: Sitting): Added }[] = [
  { word: 'source', make: (sitting) => addSource(sitting) },
  { word: 'hair light', make: (sitting) => addSource(sitting, { role: 'hair', modifierKind: 'snoot' }) },
  { word: 'kicker', make: (sitting) => addSource(sitting, { role: 'kicker', modifierKind: 'strip' }) },
  { word: 'backdrop light', make: (sitting) => addSource(sitting, { role: 'backdrop', modifierKind: 'dish' }) },
  ...PANEL_CLOTHS.map((kind) => ({ word: panelWords({ kind }), make: (sitting: Sitting) => addPanel(sitting, kind) })),
  { word: 'V-flat', make: addVFlat },
  { word: 'matt ball', make: (sitting) => addObject(sitting, 'ball') },
  { word: 'grey card', make: (sitting) => cardOf(sitting, 0.18) },
  { word: 'white card', make: (sitting) => cardOf(sitting, 0.88) },
  { word: 'flag before a card', make: (sitting) => addObject(sitting, 'flag-before-card') },
  { word: 'meter', make: (sitting) => addMeterPlace(sitting, {}, insideNow) },
  { word: 'meter, six places of the face', make: (sitting) => addFaceGrid(sitting) },
  { word: 'meter, backdrop 3 × 3', make: (sitting) => addBackdropGrid(sitting, 3) },
  { word: 'meter, backdrop 5 × 3', make: (sitting) => addBackdropGrid(sitting, 5) },
]

/** More is a photograph of a club. */
const MOST_SITTERS = 6
const MORE_SITTERS = (count: number) => [
  { word: count === 1 ? 'second sitter' : 'sitter beside', make: addSitter },
  { word: 'sitter in a row behind', make: addSitterBehind },
]

/** A new panel opposite the key, at a free place; an object where the picture has room. */
function apart({ sitting, id }: Added): Added {
  const { rig } = useDerivedNow.getState()
  if (!rig) return { sitting, id }
  if (sitting.objects.some((thing) => thing.id === id)) return { sitting: besideSitter(sitting, rig, id), id }
  if (sitting.panels.some((panel) => panel.id === id)) return { sitting: oppositeKey(sitting, rig, id), id }
  return { sitting, id }
}

/** 'add': what can be carried into the room. done: called once it is carried in. */
export function AddList({ done }: { done?: () => void }) {
  const noBackdrop = useSittingPart(({ backdrop }) => backdrop === null)
  const sitters = useSittingPart((sitting) => sitting.sitters.length)
  const entries = sitters < MOST_SITTERS ? [...ENTRIES, ...MORE_SITTERS(sitters)] : ENTRIES
  return (
    <Opens word="add" toLeft>
      {(close) => (
        <>
          {entries.map(({ word, make }) => (
            <button
              key={word}
              type="button"
              className="word"
              onClick={() => {
                close()
                done?.()
                editAndSelect(`${word} added`, (sitting) => apart(make(sitting)))
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
                done?.()
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
