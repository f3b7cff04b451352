import { createRoot } from 'react-dom/client'
import './look/index.css'
import { App } from './app'
import { startDeriving } from './derive'
import { keepDesk, restoreDesk } from './storage'

/** Puts the page into an element, with what lay on the desk last time. */
export async function mount(element: HTMLElement): Promise<void> {
  await restoreDesk()
  keepDesk()
  startDeriving()
  createRoot(element).render(<App />)
}
