import { type KeyboardEvent, type PointerEvent, useRef } from 'react'

interface SliderProps {
  readonly name: string
  readonly value: number
  readonly range: readonly [number, number]
  readonly step: number
  readonly said: string
  /** gesture: all changes with the same one make one step of undo. */
  onChange(value: number, gesture: string | null): void
  onReset?: (() => void) | undefined
}

const KEYS: Readonly<Record<string, number>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageUp: 10,
  PageDown: -10,
}

/**
 * The value that a key asks for, or null. One step a key, ten with Shift; it stops at the ends of the range, and a value
 * typed outside it is not pulled in but moves from where it is.
 */
export function keyedValue(key: string, shift: boolean, value: number, range: readonly [number, number], step: number) {
  if (key === 'Home') return range[0]
  if (key === 'End') return range[1]
  const steps = KEYS[key]
  if (steps === undefined) return null
  const next = value + steps * step * (shift ? 10 : 1)
  const low = Math.min(range[0], value)
  const high = Math.max(range[1], value)
  return Math.min(high, Math.max(low, Math.round(next / step) * step))
}

/** A line with a mark: drag, arrow keys (Shift: ten), Home and End; double-click or Delete for where it stood at first. */
export function Slider({ name, value, range, step, said, onChange, onReset }: SliderProps) {
  const gesture = useRef<string | null>(null)
  const share = (v: number) => Math.min(1, Math.max(0, (v - range[0]) / (range[1] - range[0])))
  const origin = range[0] < 0 && range[1] > 0 ? share(0) : 0
  const at = share(value)
  const drag = (event: PointerEvent<HTMLDivElement>) => {
    if (gesture.current === null) return
    const box = event.currentTarget.getBoundingClientRect()
    const raw = range[0] + Math.min(1, Math.max(0, (event.clientX - box.left) / box.width)) * (range[1] - range[0])
    onChange(Math.round(raw / step) * step, gesture.current)
  }
  const press = (event: PointerEvent<HTMLDivElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId)
    gesture.current = `${name} ${event.timeStamp}`
    drag(event)
  }
  const keyDown = (event: KeyboardEvent) => {
    if (event.key === 'Delete' || event.key === 'Backspace') return onReset?.()
    const next = keyedValue(event.key, event.shiftKey, value, range, step)
    if (next === null) return
    event.preventDefault()
    onChange(next, event.repeat ? `${name} held` : null)
  }
  return (
    <div
      className="slider"
      role="slider"
      tabIndex={0}
      aria-label={name}
      aria-valuemin={range[0]}
      aria-valuemax={range[1]}
      aria-valuenow={value}
      aria-valuetext={said}
      onPointerDown={press}
      onPointerMove={drag}
      onPointerUp={() => {
        gesture.current = null
      }}
      onKeyDown={keyDown}
      onDoubleClick={onReset}
    >
      <i style={{ left: `${Math.min(at, origin) * 100}%`, width: `${Math.abs(at - origin) * 100}%` }} />
      <b style={{ left: `${at * 100}%` }} />
    </div>
  )
}
