import type { Map as MapLibreMap, StyleImageMetadata } from 'maplibre-gl'
import { CONDITION_CLASSES } from '@/lib/condition/types'
import type { Theme } from '../class-colours'
import { PIXEL_RATIO } from './canvas'
import { arrowImage, crossingImage, foundImage, placeImage, structureImage } from './line-furniture'
import { isPastClass } from '../class-shapes'
import { markImage, pastMarkImage } from './mark-image'
import { badgeImage, isRingSize, ringImage } from './ring-image'

const isTheme = (s: string | undefined): s is Theme => s === 'light' || s === 'dark'

interface MapImage { data: ImageData; options?: Partial<StyleImageMetadata> }

/** Image ids say what to draw: `mark:light:urgent`, `ring:dark:m:g00000`, `structure:light:end`. Undefined for ids that are not ours. */
export function imageFor(id: string): MapImage | undefined {
  const [kind, theme, what, more] = id.split(':')
  if (!isTheme(theme)) return undefined
  const cls = CONDITION_CLASSES.find((c) => c === what)
  if (kind === 'mark' && cls && more === 'past' && isPastClass(cls)) return { data: pastMarkImage(theme, cls) }
  if (kind === 'mark' && cls) return { data: markImage(theme, cls) }
  if (kind === 'ring' && isRingSize(what) && more) return { data: ringImage(theme, what, more) }
  if (kind === 'structure' && what) {
    return { data: structureImage(theme, { end: what.startsWith('end'), wide: what.endsWith('-wide') }) }
  }
  if (kind === 'crossing' && what) return { data: crossingImage(theme, what) }
  if (kind === 'found') return { data: foundImage(theme) }
  if (kind === 'arrow') return { data: arrowImage(theme) }
  if (kind === 'place') return { data: placeImage(theme) }
  if (kind === 'badge') {
    const middle: [number, number][] = [[16, 18]]
    const options: Partial<StyleImageMetadata> = { stretchX: middle, stretchY: middle, content: [7, 5, 27, 29] }
    return { data: badgeImage(theme, what === 'critical' ? 'critical' : 'urgent'), options }
  }
  return undefined
}

/** For `setMissingStyleImageResolver`: draws what a tile asks for, before the tile is laid out. */
export function provideImage(map: MapLibreMap, id: string): void {
  const image = imageFor(id)
  if (image && !map.hasImage(id)) map.addImage(id, image.data, { pixelRatio: PIXEL_RATIO, ...image.options })
}
