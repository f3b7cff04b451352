import { Over } from '../contact/over'
import { useSittingPart } from '../store'
import { DayPart } from './day-part'
import { DevicePart } from './device-part'
import { SharePart } from './share-part'
import { SheetPart } from './sheet-part'

const TITLE = 'carry-title'

export function CarryPage({ onClose }: { onClose(): void }) {
  const title = useSittingPart((sitting) => sitting.title)
  return (
    <Over titled={TITLE} className="carry" onClose={onClose}>
      <header className="contact-head">
        <h2 id={TITLE}>Carry and print</h2>
        <p className="whereabouts">{title}</p>
        <button type="button" className="word" onClick={onClose}>
          close
        </button>
      </header>
      <div className="carry-parts">
        <SheetPart />
        <SharePart />
        <DayPart />
        <DevicePart />
      </div>
    </Over>
  )
}
