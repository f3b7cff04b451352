import { useEffect, useMemo } from 'react'
import { useDrawn } from '../contact/use-drawn'
import { type PictureState, useDerived } from '../derived'
import { currentSitting, isCovered, useSession, useSitting } from '../store'
import { keepThumb, useTakePictures } from './pictures'
import { pictureKey, shows, showTake, type Take } from './take'

/** Left to itself, the picture in hand is near enough to its end for another to be drawn beside it: so many samples, or a mean error, as a share. */
const ENOUGH = { samples: 64, error: 0.03 }

function isNearEnd(picture: PictureState): boolean {
  if (picture.kind === 'finished') return true
  if (picture.kind !== 'working' || picture.rough) return false
  return picture.error === null ? picture.samples >= ENOUGH.samples : picture.error <= ENOUGH.error
}

/** Takes that were never in sight, as those of a file, get their small pictures one by one while there is time for it. */
export function DrawThumbs() {
  const sitting = useSitting()
  const thumbs = useTakePictures((kept) => kept.thumbs)
  const isFree = useDerived(({ picture }) => isNearEnd(picture))
  const isAlone = useSession((session) => session.wipe === null && !isCovered(session))
  const due = sitting.takes.find((take) => thumbs[pictureKey(take)] === undefined && !shows(sitting, take))
  return isFree && isAlone && due && <DrawThumb key={due.name} take={due} />
}

const LOOKS = ['camera'] as const

function DrawThumb({ take }: { take: Take }) {
  const sets = useMemo(() => [showTake(currentSitting(), take.name)], [take])
  const [cell] = useDrawn(sets, 'metres', { looks: LOOKS, isQuick: true, isLast: true })
  useEffect(() => {
    if (cell?.finished && cell.bitmap) keepThumb(pictureKey(take), cell.bitmap)
  }, [cell, take])
  return null
}
