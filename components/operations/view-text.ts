import type { FoundMark, MapView, Selection } from '@/components/map/types'

/** 'lat,lon,zoom' as people write coordinates: five decimals are about a metre, and keep an address short. */
export function formatView(view: MapView): string {
  return `${fixed(view.lat, 5)},${fixed(view.lon, 5)},${fixed(view.zoom, 2)}`
}

/** A tiny negative number rounds to zero without its sign, so that a view reads the same after a round trip. */
const fixed = (value: number, decimals: number): string => (Number(value.toFixed(decimals)) || 0).toFixed(decimals)

/** Null where the text is no place on earth: the map then fits the network. */
export function parseView(text: string): MapView | null {
  const parts = text.split(',').map((p) => (p.trim() === '' ? NaN : Number(p)))
  const [lat, lon, zoom] = parts
  if (parts.length !== 3 || lat === undefined || lon === undefined || zoom === undefined) return null
  if (!(Math.abs(lat) <= 90) || !(Math.abs(lon) <= 180) || !(zoom >= 0 && zoom <= 24)) return null
  return { lat, lon, zoom }
}

/** 'lat,lon,what was found there'. */
export const formatMark = (mark: FoundMark): string => `${fixed(mark.lat, 5)},${fixed(mark.lon, 5)},${mark.label}`

export function parseMark(text: string): FoundMark | null {
  const match = /^(-?[\d.]+),(-?[\d.]+),(.{1,120})$/.exec(text)
  const [lat, lon] = [Number(match?.[1]), Number(match?.[2])]
  return match?.[3] !== undefined && Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? { lat, lon, label: match[3] } : null
}

/** 'splice-12', 'circuit-3'. */
export const formatSelection = (selection: NonNullable<Selection>): string => `${selection.kind}-${selection.id}`

export function parseSelection(text: string): Selection {
  const match = /^(splice|circuit)-([1-9]\d{0,14})$/.exec(text)
  return match ? { kind: match[1] === 'splice' ? 'splice' : 'circuit', id: Number(match[2]) } : null
}
