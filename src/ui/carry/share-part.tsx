import { useState } from 'react'
import { writePng } from '../../exchange'
import { writeSitting } from '../../sitting'
import { PNG_SITTING, saveFile } from '../files'
import { fileStem, giveFile } from '../give-file'
import { currentSitting } from '../store'
import { LONGEST_LINK } from './link'
import { linkOfNow } from './link-of-now'
import { Part, useTold } from './part'
import { pixelsOf, presentPicture, roughWords } from './present-picture'

const MOST_WIDTH = 4096

/** The sitting as a link, and as a picture that carries it. */
export function SharePart() {
  const [link, setLink] = useState<string | null>(null)
  const [told, doing] = useTold()
  const make = () => {
    const made = linkOfNow()
    if (made.length > LONGEST_LINK) {
      setLink(null)
      doing('', async () => {
        saveFile()
        return `The link would have ${made.length} characters, and some letters and chats cut them at ${LONGEST_LINK}: the sitting is saved as a file instead.`
      })
      return
    }
    setLink(made)
    doing('', async () => {
      await navigator.clipboard.writeText(made)
      return `${made.length} characters, copied. Whoever opens it has the whole sitting; nothing lies on a server.`
    })
  }
  const picture = async (): Promise<string> => {
    const canvas = presentPicture()
    if (!canvas) return 'No picture is drawn yet as the camera has it: close this page, let one come, and try again.'
    const sitting = currentSitting()
    const name = `${fileStem(sitting.title)}.png`
    giveFile(name, writePng(pixelsOf(canvas, MOST_WIDTH, false), { [PNG_SITTING]: writeSitting(sitting) }), 'image/png')
    const rough = roughWords()
    return `${name} carries the sitting: open it, or drop it on the page.${rough ? ` Its picture is ${rough}.` : ''}`
  }
  return (
    <Part
      title="Share"
      says="A link or a picture that holds the whole sitting. Opening either is a step that undo takes back."
    >
      <div className="row">
        <button type="button" className="word under" onClick={make}>
          link
        </button>
        <button type="button" className="word under" onClick={() => doing('Writing the picture.', picture)}>
          picture that carries its sitting
        </button>
      </div>
      {link !== null && (
        <input
          className="field"
          readOnly
          aria-label="link to this sitting"
          value={link}
          onFocus={(event) => event.currentTarget.select()}
        />
      )}
      <p role="status">{told}</p>
    </Part>
  )
}
