import { describe, expect, it } from 'vitest'
import { dryStyle } from '@/components/map/dry-start'
import { embeddedBaseLayers } from '@/components/map/style/base-layers'
import { PALETTES } from '@/components/map/style/palette'

describe('the ground before its first tile', () => {
  it.each(['light', 'dark'] as const)('is land where water shows later, and nothing else differs: %s', (theme) => {
    const layers = embeddedBaseLayers(theme)
    const dry = dryStyle({ version: 8, sources: {}, layers }, theme).layers
    expect(dry[0]).toMatchObject({ type: 'background', paint: { 'background-color': PALETTES[theme].land } })
    expect(layers[0]).toMatchObject({ type: 'background', paint: { 'background-color': PALETTES[theme].water } })
    expect(dry.slice(1)).toEqual(layers.slice(1))
  })
})
