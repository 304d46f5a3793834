import type { NewNotice } from '@/lib/store/urgent'

/** The circuits of several possible places, each once and with all of its places' probability, the likeliest first. */
export function noticeCircuits(places: readonly { circuitId: number; circuit: string; probability: number }[]): NewNotice['circuits'] {
  const found = new Map<number, { circuitId: number; circuit: string; probability: number }>()
  for (const { circuitId, circuit, probability } of places) {
    const same = found.get(circuitId)
    if (same) same.probability += probability
    else found.set(circuitId, { circuitId, circuit, probability })
  }
  return [...found.values()].sort((a, b) => b.probability - a.probability)
}
