import { packText } from '../../exchange'
import { writeSitting } from '../../sitting'
import { currentSitting } from '../store'
import { LINK_MARK } from './link'

/** The page's own address with the present sitting behind it. */
export const linkOfNow = (): string =>
  `${location.href.replace(/#.*$/, '')}${LINK_MARK}${packText(writeSitting(currentSitting()))}`
