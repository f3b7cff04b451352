import { packText, unpackText } from '../../exchange'
import { writeSitting } from '../../sitting'
import { openText } from '../files'
import { currentSitting, setSession } from '../store'

/** Before the packed sitting in the fragment of the page's address. */
const MARK = '#sitting='
/** Longer links are cut by what carries them, characters: common practice, no source. */
export const LONGEST_LINK = 16_000

/** The page's own address with the present sitting behind it. */
export const linkOfNow = (): string =>
  `${location.href.replace(/#.*$/, '')}${MARK}${packText(writeSitting(currentSitting()))}`

export const hasSitting = (text: string): boolean => text.includes(MARK)

/** Opens what a link or its fragment holds, as one step; what is wrong with it is told in place. */
export function openLink(text: string): void {
  const packed = text.slice(text.indexOf(MARK) + MARK.length).trim()
  let plain: string
  try {
    plain = unpackText(packed)
  } catch (error) {
    setSession({
      notice: {
        title: 'The link was not opened. Your present sitting is untouched.',
        problems: [
          {
            path: 'the link after #',
            expected: 'a whole sitting, packed',
            got: (error instanceof Error ? error.message : String(error)).replace(/^exchange\.\w+: /, ''),
            advice: 'Copy the whole link once more, or ask for the sitting as a file.',
          },
        ],
      },
      page: 'readings',
    })
    return
  }
  openText('The link', plain)
}

/** Opens what the page's address holds, now and whenever it changes; the address is bare afterwards, so that it goes stale nowhere. */
export function watchAddress(): void {
  const take = () => {
    const { hash, pathname, search } = location
    if (!hash.startsWith(MARK)) return
    history.replaceState(null, '', pathname + search)
    openLink(hash)
  }
  window.addEventListener('hashchange', take)
  take()
}
