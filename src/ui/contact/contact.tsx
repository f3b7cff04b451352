import { lazy, Suspense, useRef } from 'react'
import { type Contact as Row, useSession } from '../store'

const ContactSheet = lazy(async () => ({ default: (await import('./contact-sheet')).ContactSheet }))

/** The contact sheet, loaded when it is asked for first. */
export function Contact() {
  const contact = useSession((session) => session.contact)
  return contact && <Opened contact={contact} />
}

/** What was pressed has the focus no longer once the sheet is there: the surface under it takes none. */
function Opened({ contact }: { contact: Row }) {
  const opener = useRef(document.activeElement)
  return (
    <Suspense>
      <ContactSheet contact={contact} opener={opener.current} />
    </Suspense>
  )
}
