/** The picture and its grey wall over the whole screen; any key or touch brings the rest back. */
export async function fillScreen(): Promise<void> {
  const picture = document.getElementById('picture')
  if (!picture?.requestFullscreen) return
  try {
    await picture.requestFullscreen()
  } catch {
    // The browser, or the person, said no: the page is as it was.
    return
  }
  const back = () => {
    window.removeEventListener('keydown', back)
    window.removeEventListener('pointerdown', back)
    if (document.fullscreenElement) void document.exitFullscreen()
  }
  window.addEventListener('keydown', back)
  window.addEventListener('pointerdown', back)
}
