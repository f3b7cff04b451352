import { meterSheet } from './meter-sheet'
import type { ControlContext, ControlSheet } from './model'
import { cameraSheet, sitterSheet } from './person-sheets'
import { backdropSheet, objectSheet, panelSheet, roomSheet } from './set-sheets'
import { sourceSheet } from './source-sheet'
import { thingsOf } from './words'

/** The controls of the thing with that id; null where the sitting has no such thing. */
export function sheetOf(context: ControlContext, id: string | null): ControlSheet | null {
  const { sitting } = context
  if (id === 'camera') return cameraSheet(sitting)
  if (id === 'room') return roomSheet(sitting.room)
  if (id === 'backdrop') return sitting.backdrop && backdropSheet(sitting.backdrop)
  const source = sitting.sources.find((thing) => thing.id === id)
  if (source) return sourceSheet(source, context)
  const panel = sitting.panels.find((thing) => thing.id === id)
  if (panel) return panelSheet(panel)
  const object = sitting.objects.find((thing) => thing.id === id)
  if (object) return objectSheet(object)
  const place = sitting.meterPlaces.find((thing) => thing.id === id)
  if (place) return meterSheet(place, sitting)
  const sitter = sitting.sitters.find((thing) => thing.id === id)
  if (!sitter) return null
  const word = thingsOf(sitting).find((thing) => thing.id === id)?.word ?? 'sitter'
  return sitterSheet(sitter, word, sitter === sitting.sitters[0], context.eyesRisenM?.get(sitter.id) ?? 0)
}
