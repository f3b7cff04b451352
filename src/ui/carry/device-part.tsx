import { useEffect, useState } from 'react'
import { FilePick } from '../file-pick'
import { giveFile } from '../give-file'
import { type Offline, update, useOffline } from '../offline/offline'
import { textOf } from '../read-file'
import { type Backup, backupText, readBackup, restoreBackup } from './backup'
import { Part, useTold } from './part'

/** What this device keeps: files of the page, and the person's own records. */
export function DevicePart() {
  const offline = useOffline((state) => state.offline)
  const [told, doing] = useTold()
  const [backup, setBackup] = useState<Backup | null>(null)
  const save = async (): Promise<string> => {
    const now = new Date()
    const name = `halfshade-${now.toISOString().slice(0, 10)}.backup.json`
    giveFile(name, await backupText(now))
    return `${name} holds everything that lies on this device.`
  }
  const pick = async (file: File): Promise<string> => {
    setBackup(null)
    const read = readBackup(await textOf(file))
    setBackup(read)
    return `${file.name}, made ${read.madeAt.slice(0, 10)}${read.title === null ? '' : `, with ${read.title} on the desk`}: it would take the place of everything on this device.`
  }
  return (
    <Part title="This device" says={offlineWords(offline)}>
      {offline.kind === 'update' && (
        <button type="button" className="word under" onClick={() => void update(offline.waiting)}>
          take the newer version
        </button>
      )}
      <p>{useRoom()}</p>
      <div className="row">
        <button type="button" className="word under" onClick={() => doing('Writing the backup.', save)}>
          back up everything
        </button>
        <FilePick
          word="open a backup"
          accept=".json,application/json"
          onFile={(file) => doing('Reading the backup.', () => pick(file))}
        />
        {backup && (
          <button
            type="button"
            className="word under"
            onClick={() => doing('Restoring.', async () => restoreBackup(backup).then(() => 'Restored.'))}
          >
            restore it
          </button>
        )}
      </div>
      <p role="status">{told}</p>
    </Part>
  )
}

function offlineWords(offline: Offline): string {
  switch (offline.kind) {
    case 'checking':
      return 'Getting ready to work without a network.'
    case 'ready':
      return 'Works without a network. Your browser can install the page as a program.'
    case 'update':
      return 'Works without a network. A newer version is here and waits: your work stays as it is.'
    case 'none':
      return `Does not work without a network: ${offline.why}. The sheet does, as PDF or HTML.`
  }
}

/** How much lies here, in words. */
function useRoom(): string {
  const [words, setWords] = useState('')
  useEffect(() => {
    navigator.storage?.estimate?.().then(
      ({ usage = 0, quota = 0 }) => {
        const mb = (bytes: number) => `${Math.round(bytes / 2 ** 20)} MB`
        setWords(`${mb(usage)} of ${mb(quota)} that this browser allows are used; nothing leaves this device.`)
      },
      () => setWords(''),
    )
  }, [])
  return words
}
