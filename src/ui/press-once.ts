/** After a press that took away what was pressed: its second, of a hand that presses twice, does nothing to what lay beneath. */
export function pressOnce(): void {
  const second = (event: MouseEvent) => {
    if (event.detail < 2) return
    event.stopPropagation()
    event.preventDefault()
  }
  window.addEventListener('click', second, { capture: true, once: true })
}
