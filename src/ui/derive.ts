import figureUrl from '../../assets/sitter.glb?url'
import { readFigureAsset } from '../figure'
import { createRigBuilder } from '../rig'
import { setDerived } from './derived'
import { currentSitting, useStore } from './store'

/** Loads the sitter once, then derives the rig again after every change of the document. */
export async function startDeriving(): Promise<void> {
  try {
    const bytes = await loadFigure()
    const asset = readFigureAsset(bytes)
    const build = createRigBuilder({ figure: asset })
    const derive = () => setDerived({ rig: build(currentSitting()) })
    setDerived({ asset })
    derive()
    useStore.subscribe((now, before) => {
      if (now.history.present !== before.history.present) derive()
    })
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error)
    setDerived({ fault: `The sitter could not be loaded (${words}). Controls and files work; load the page again.` })
  }
}

async function loadFigure(): Promise<Uint8Array> {
  const response = await fetch(figureUrl)
  if (!response.ok) throw new Error(`${figureUrl}: ${response.status}`)
  return new Uint8Array(await response.arrayBuffer())
}
