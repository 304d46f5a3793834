import { describe, expect, it } from 'vitest'
import { parseCoordinates } from '@/lib/store/coordinates'

describe('coordinates as people type them, latitude first', () => {
  it.each([
    ['46.8721, -113.994', 46.8721, -113.994],
    ['46.8721 -113.994', 46.8721, -113.994],
    ['46.8721;-113.994', 46.8721, -113.994],
    ['46.8721 N, 113.994 W', 46.8721, -113.994],
    ['46.8721° S 113.994° E', -46.8721, 113.994],
    ['−46.5, 8', -46.5, 8],
    ['46°52\'19.5"N 113°59\'38.4"W', 46.87208333, -113.994],
    ['46° 52′ 19.5″ N, 113° 59′ 38.4″ W', 46.87208333, -113.994],
    ['46 52 19.5 N 113 59 38.4 W', 46.87208333, -113.994],
  ])('%s', (text, lat, lon) => {
    const found = parseCoordinates(text)
    expect(found?.lat).toBeCloseTo(lat, 6)
    expect(found?.lon).toBeCloseTo(lon, 6)
  })

  it.each(['12/3', '045', '214-B-07', 'Osprey Bench', '46.8', '91, 0', '0, 181', '46°61\'00"N 113°00\'00"W', ''])('%s is none', (text) => {
    expect(parseCoordinates(text)).toBeNull()
  })
})
