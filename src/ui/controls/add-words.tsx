import type { ReactNode } from 'react'
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
  aimSource,
  PANEL_CLOTHS,
  panelWords,
  type Sitting,
  setBackdrop,
  setObject,
} from '../../sitting'
import { marksNow, useDerivedNow } from '../derived'
import { edit, editAndSelect, select, useSittingPart } from '../store'
import { besideSitter } from './free-place'
import { insideNow } from './meter-hold'
import { oppositeKey } from './opposite-key'

type Added = { sitting: Sitting; id: string }

interface Entry {
  /** What is added, in full. */
  readonly word: string
  /** As much of it as is shown, where the kind or the word before it says the rest. */
  readonly short?: string
  make(sitting: Sitting): Added
}

/** A card as a class has it: 18 % grey, or white. */
function cardOf(sitting: Sitting, reflectance: number): Added {
  const added = addObject(sitting, 'card')
  return { id: added.id, sitting: setObject(added.sitting, added.id, { reflectance }) }
}

/** By what they do, in the order in which a set is built; the most used of a kind first. */
const KINDS: readonly { name: string; entries: readonly Entry[] }[] = [
  {
    name: 'light',
    entries: [
      { word: 'source', make: (sitting) => atNose(addSource(sitting)) },
      {
        word: 'hair light',
        short: 'hair',
        make: (sitting) => addSource(sitting, { role: 'hair', modifierKind: 'snoot' }),
      },
      { word: 'kicker', make: (sitting) => addSource(sitting, { role: 'kicker', modifierKind: 'strip' }) },
      {
        word: 'backdrop light',
        short: 'backdrop',
        make: (sitting) => addSource(sitting, { role: 'backdrop', modifierKind: 'dish' }),
      },
    ],
  },
  {
    name: 'panels',
    entries: [
      ...PANEL_CLOTHS.map((kind) => ({
        word: panelWords({ kind }),
        short: kind,
        make: (sitting: Sitting) => addPanel(sitting, kind),
      })),
      { word: 'V-flat', make: addVFlat },
    ],
  },
  {
    name: 'test',
    entries: [
      { word: 'matt ball', make: (sitting) => addObject(sitting, 'ball') },
      { word: 'grey card', make: (sitting) => cardOf(sitting, 0.18) },
      { word: 'white card', make: (sitting) => cardOf(sitting, 0.88) },
      { word: 'flag before a card', make: (sitting) => addObject(sitting, 'flag-before-card') },
    ],
  },
  {
    name: 'measure',
    entries: [
      { word: 'meter', make: (sitting) => addMeterPlace(sitting, {}, insideNow) },
      {
        word: 'meter, six places of the face',
        short: 'six places of the face',
        make: (sitting) => addFaceGrid(sitting),
      },
      { word: 'meter, backdrop 3 × 3', short: 'backdrop 3 × 3', make: (sitting) => addBackdropGrid(sitting, 3) },
      { word: 'meter, backdrop 5 × 3', short: '5 × 3', make: (sitting) => addBackdropGrid(sitting, 5) },
    ],
  },
]

/** More is a photograph of a club. */
const MOST_SITTERS = 6
const moreSitters = (count: number): readonly Entry[] =>
  count < MOST_SITTERS
    ? [
        { word: count === 1 ? 'second sitter' : 'sitter beside', make: addSitter },
        { word: 'sitter in a row behind', short: 'in a row behind', make: addSitterBehind },
      ]
    : []

/** A key or a fill looks at the nose, wherever the head is turned. */
function atNose({ sitting, id }: Added): Added {
  const source = sitting.sources.find((thing) => thing.id === id)
  const nose = marksNow()?.noseTip
  const isOnFace = source?.role === 'key' || source?.role === 'fill'
  return isOnFace && nose ? { sitting: aimSource(sitting, id, nose), id } : { sitting, id }
}

/** A new panel opposite the key, at a free place; an object where the picture has room. */
function apart({ sitting, id }: Added): Added {
  const { rig } = useDerivedNow.getState()
  if (!rig) return { sitting, id }
  if (sitting.objects.some((thing) => thing.id === id)) return { sitting: besideSitter(sitting, rig, id), id }
  if (sitting.panels.some((panel) => panel.id === id)) return { sitting: oppositeKey(sitting, rig, id), id }
  return { sitting, id }
}

/** What can be carried into the room, by its kind. done: called as it is carried in. */
export function AddWords({ done }: { done(): void }) {
  const noBackdrop = useSittingPart(({ backdrop }) => backdrop === null)
  const sitters = moreSitters(useSittingPart((sitting) => sitting.sitters.length))
  return (
    <>
      {[...KINDS, { name: 'sitter', entries: sitters }].map(
        ({ name, entries }) =>
          entries.length > 0 && (
            <Kind key={name} name={name}>
              {entries.map(({ word, short, make }) => (
                <button
                  key={word}
                  type="button"
                  className="word"
                  aria-label={short && word}
                  onClick={() => {
                    done()
                    editAndSelect(`${word} added`, (sitting) => apart(make(sitting)))
                  }}
                >
                  {short ?? word}
                </button>
              ))}
            </Kind>
          ),
      )}
      {noBackdrop && (
        <Kind name="behind">
          <button
            type="button"
            className="word"
            onClick={() => {
              done()
              if (edit('backdrop hung', (sitting) => setBackdrop(sitting, {}))) select('backdrop')
            }}
          >
            backdrop
          </button>
        </Kind>
      )}
    </>
  )
}

function Kind({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className="kind">
      <h3 className="kind-name">{name}</h3>
      <div>{children}</div>
    </div>
  )
}
