import { lazy, Suspense } from 'react'
import { Opens } from './opens'

/** Loaded when the list is opened. */
const AddWords = lazy(async () => ({ default: (await import('./add-words')).AddWords }))

/** 'add': what can be carried into the room. done: called once it is carried in. */
export function AddList({ done }: { done?: () => void }) {
  return (
    <Opens word="add" toLeft>
      {(close) => (
        <Suspense>
          <AddWords
            done={() => {
              close()
              done?.()
            }}
          />
        </Suspense>
      )}
    </Opens>
  )
}
