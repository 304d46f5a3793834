'use client'
import { memo, useEffect, useRef, useState, type ComponentProps } from 'react'
import { flushSync } from 'react-dom'
import { LinePlot } from './line-plot'

const Drawn = memo(LinePlot)

/** A plot off the screen stands still while a slider moves; it is drawn anew when it comes into sight, and before it goes on paper. */
export function SeenPlot(props: ComponentProps<typeof LinePlot>) {
  const at = useRef<HTMLDivElement>(null)
  const [seen, setSeen] = useState(true)
  const [still, setStill] = useState(props)
  if (seen && still !== props) setStill(props)
  useEffect(() => {
    const element = at.current
    if (!element) return
    const watching = new IntersectionObserver((entries) => setSeen(entries.at(-1)?.isIntersecting ?? true), { rootMargin: '200px' })
    watching.observe(element)
    const print = () => flushSync(() => setSeen(true))
    window.addEventListener('beforeprint', print)
    return () => {
      watching.disconnect()
      window.removeEventListener('beforeprint', print)
    }
  }, [])
  return (
    <div ref={at}>
      <Drawn {...(seen ? props : still)} />
    </div>
  )
}
