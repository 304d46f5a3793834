import { useEffect, useState, type RefObject } from 'react'

/** Whether the beginning of an element can be read: its first lines are enough, a sliver at the lower edge is not. */
export function useInSight(element: RefObject<HTMLElement | null>): boolean {
  const [seen, setSeen] = useState(false)
  useEffect(() => {
    if (!element.current) return
    const watching = new IntersectionObserver((entries) => setSeen(entries.at(-1)?.isIntersecting ?? false), { rootMargin: '0px 0px -180px 0px' })
    watching.observe(element.current)
    return () => watching.disconnect()
  }, [element])
  return seen
}
