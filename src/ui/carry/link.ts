import { openText } from '../files'
import { setSession } from '../store'

/** Before the packed sitting in the fragment of the page's address. */
export const LINK_MARK = '#sitting='
/** Longer links are cut by what carries them, characters: common practice, no source. */
export const LONGEST_LINK = 16_000

export const hasSitting = (text: string): boolean => text.includes(LINK_MARK)

/** Opens what a link or its fragment holds, as one step; what is wrong with it is told in place. */
export async function openLink(text: string): Promise<void> {
  const { unpackText } = await import('../../exchange')
  const packed = text.slice(text.indexOf(LINK_MARK) + LINK_MARK.length).trim()
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
    if (!hash.startsWith(LINK_MARK)) return
    history.replaceState(null, '', pathname + search)
    void openLink(hash)
  }
  window.addEventListener('hashchange', take)
  take()
}
