import { CONDITION_CLASSES } from '@/lib/condition/types'
import { CLASS_COLOURS, WORST_FIRST, type Theme } from '../class-colours'
import { PALETTES } from '../style/palette'
import { drawn } from './canvas'

/** Outer diameter and thickness in CSS px, by how many splices stand behind the ring. */
const SIZES = { s: [25, 3.4], m: [30, 3.8], l: [37, 4.6], xl: [45, 5.6] } as const
export type RingSize = keyof typeof SIZES
export const isRingSize = (size: string | undefined): size is RingSize => size !== undefined && size in SIZES

const GAP_RAD = 0.05

/** Class shares around a ring from twelve o'clock, worst first. `mix` has one base-36 digit a class, as tiles carry it. */
export function ringImage(theme: Theme, size: RingSize, mix: string): ImageData {
  const [diameter, thickness] = SIZES[size]
  const palette = PALETTES[theme]
  const shares = new Map(CONDITION_CLASSES.map((cls, i) => [cls, Number.parseInt(mix[i] ?? '0', 36) || 0]))
  const whole = [...shares.values()].reduce((sum, n) => sum + n, 0) || 1
  const present = WORST_FIRST.filter((cls) => (shares.get(cls) ?? 0) > 0)
  const radius = (diameter - thickness) / 2
  return drawn(diameter + 6, diameter + 6, (g) => {
    const disc = (r: number, colour: string) => {
      g.fillStyle = colour
      g.beginPath()
      g.arc(0, 0, r, 0, 2 * Math.PI)
      g.fill()
    }
    disc(diameter / 2 + 2, palette.paper)
    disc(diameter / 2 + 0.7, theme === 'light' ? '#5c6166' : '#05070a')
    disc(diameter / 2, palette.ringBody)
    g.lineWidth = thickness
    let from = -Math.PI / 2
    for (const cls of present) {
      const to = from + (2 * Math.PI * (shares.get(cls) ?? 0)) / whole
      const gap = present.length > 1 ? GAP_RAD : 0
      g.strokeStyle = CLASS_COLOURS[theme][cls].fill
      // Unknown is hollow everywhere: here a dashed stretch of the ring.
      g.setLineDash(cls === 'unknown' ? [2, 1.9] : [])
      g.beginPath()
      g.arc(0, 0, radius, from + gap, to - gap)
      g.stroke()
      from = to
    }
    g.setLineDash([])
    disc(radius - thickness / 2 + 0.2, palette.ringBody)
  })
}

/** Behind the count of urgent and critical: stretched to the number's width. */
export function badgeImage(theme: Theme, cls: 'urgent' | 'critical'): ImageData {
  const side = 17
  return drawn(side, side, (g) => {
    for (const [r, colour] of [[8.5, PALETTES[theme].paper], [7.4, CLASS_COLOURS[theme][cls].fill]] as const) {
      g.fillStyle = colour
      g.beginPath()
      g.arc(0, 0, r, 0, 2 * Math.PI)
      g.fill()
    }
  })
}
