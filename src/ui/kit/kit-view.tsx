import { type ReactNode, useState } from 'react'
import { buildModifier } from '../../gear'
import { addHead, addModifier, addStand, type Kit, keepCalibration, renameKit } from '../../kit'
import { redoName, type Source, undoName } from '../../sitting'
import { TextBox } from '../controls/text-box'
import { useWide } from '../controls/use-wide'
import { FilePick } from '../file-pick'
import { readText } from '../read-file'
import { useSitting } from '../store'
import { tellNotRead } from '../tell-not-read'
import { HeadEntry } from './head-entry'
import { KitWord } from './kit-rows'
import { editKit, openKit, redoKit, saveKit, undoKit, updateSitting, useKit, useKitHistory } from './kit-store'
import { CalibrationEntry, ModifierEntry, StandEntry } from './other-entries'

const GROUPS = ['heads', 'modifiers', 'stands', 'calibrations'] as const
type GroupName = (typeof GROUPS)[number]

/** What the person owns, entry by entry; in place of the rows of a thing. */
export function KitView() {
  const kit = useKit()
  const [open, setOpen] = useState<GroupName>('heads')
  const { sources } = useSitting()
  const wide = useWide()
  return (
    <>
      <h2 className="unseen">kit</h2>
      {wide && <KitHead kit={kit} />}
      <div className="tabs">
        {GROUPS.map((name) => (
          <button key={name} type="button" className="word" aria-pressed={name === open} onClick={() => setOpen(name)}>
            {name}
          </button>
        ))}
      </div>
      {GROUPS.map((name) => (
        <div key={name} className="group" data-open={name === open}>
          <h3>{name}</h3>
          <div>{entriesOf(name, kit, sources)}</div>
        </div>
      ))}
      {!wide && <KitHead kit={kit} />}
    </>
  )
}

function KitHead({ kit }: { kit: Kit }) {
  const back = useKitHistory((store) => undoName(store.history))
  const forth = useKitHistory((store) => redoName(store.history))
  return (
    <div className="selected kit">
      <div className="in-hand">
        <b>kit</b>
      </div>
      <TextBox
        named="name of the kit"
        value={kit.title}
        onValue={(title) => editKit(`kit named ${title}`, (now) => renameKit(now, title))}
      />
      <FilePick
        word="open a kit"
        accept=".json,application/json"
        onFile={(file) => void readText(file, openKit, tellNotRead)}
      />
      <KitWord word="save the kit" press={saveKit} />
      <KitWord
        word="update the sitting"
        named="update the sitting: copy what it has of this kit anew"
        press={updateSitting}
      />
      {back !== null && <KitWord word={`kit undo: ${back}`} press={undoKit} />}
      {forth !== null && <KitWord word={`kit redo: ${forth}`} press={redoKit} />}
    </div>
  )
}

function entriesOf(name: GroupName, kit: Kit, sources: readonly Source[]): ReactNode {
  switch (name) {
    case 'heads':
      return (
        <>
          {kit.heads.map((head) => (
            <HeadEntry key={head.id} head={head} />
          ))}
          <KitWord word="add a head" press={() => editKit('a head added', (now) => addHead(now).kit)} />
          {sources
            .filter((source) => source.kit?.headId === undefined)
            .map((source) => (
              <KitWord
                key={source.id}
                word={`add the head of ${source.letter}`}
                press={() => editKit(`head of ${source.letter} added`, (now) => addHead(now, source).kit)}
              />
            ))}
        </>
      )
    case 'modifiers':
      return (
        <>
          {kit.modifiers.map((entry) => (
            <ModifierEntry key={entry.id} entry={entry} />
          ))}
          {sources
            .filter((source) => source.kit?.modifierId === undefined)
            .map((source) => (
              <KitWord
                key={source.id}
                word={`add the modifier of ${source.letter}`}
                press={() =>
                  editKit(
                    `modifier of ${source.letter} added`,
                    (now) => addModifier(now, source, buildModifier(source.modifier).name).kit,
                  )
                }
              />
            ))}
        </>
      )
    case 'stands':
      return (
        <>
          {kit.stands.map((stand) => (
            <StandEntry key={stand.id} stand={stand} />
          ))}
          <KitWord word="add a stand" press={() => editKit('a stand added', (now) => addStand(now).kit)} />
        </>
      )
    case 'calibrations':
      return (
        <>
          {kit.calibrations.map((entry) => (
            <CalibrationEntry key={entry.id} entry={entry} kit={kit} />
          ))}
          {kit.calibrations.length === 0 && (
            <p className="row-note">
              None yet: calibrate a source whose head and modifier are of this kit, then keep it here.
            </p>
          )}
          {sources
            .filter(({ calibration }) => calibration !== undefined)
            .map((source) => (
              <KitWord
                key={source.id}
                word={`keep the calibration of ${source.letter}`}
                press={() => editKit(`calibration of ${source.letter} kept`, (now) => keepCalibration(now, source))}
              />
            ))}
        </>
      )
  }
}
