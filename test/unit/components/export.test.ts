import { describe, expect, it } from 'vitest'
import { metresPerPx } from '@/components/map/map-picture'
import { scaleBar } from '@/components/operations/export/scale-bar'
import { boxText, exportHref, filterText, leftOutText } from '@/components/operations/export/words'

describe('the scale of a picture', () => {
  it('is that of the Mercator map: at zoom 0 a tile of 512 px holds the equator of WGS84, 40,075,016.686 m', () => {
    expect(metresPerPx(0, 0)).toBeCloseTo(40_075_016.686 / 512, 6)
    expect(metresPerPx(60, 1)).toBeCloseTo(40_075_016.686 / 512 / 4, 3)
  })

  it('is a round length of the reader’s unit, as long as there is room', () => {
    expect(scaleBar(10, 'metric', 120)).toEqual({ widthPx: 100, text: '1 km' })
    expect(scaleBar(3, 'metric', 120)).toEqual({ widthPx: 200 / 3, text: '200 m' })
    expect(scaleBar(100, 'us', 120)).toEqual({ widthPx: (5 * 1_609.344) / 100, text: '5 mi' })
    expect(scaleBar(10, 'us', 120)).toEqual({ widthPx: (2_000 * 0.3048) / 10, text: '2,000 ft' })
  })
})

describe('the addresses of files', () => {
  it('have the filter of the list, and the box of the map where that is wanted', () => {
    expect(exportHref('csv', {}, null)).toBe('/api/v1/splices.csv')
    expect(exportHref('kml', { classes: ['critical'], phases: ['A'] }, [-115, 47, -114, 48])).toBe('/api/v1/splices.kml?class=critical&phase=A&bbox=-115.000000,47.000000,-114.000000,48.000000')
    expect(exportHref('gpx', { classes: [] }, null)).toBe('/api/v1/splices.gpx?class=')
    expect(exportHref('csv', {}, null, 'R. Reader & crew')).toBe('/api/v1/splices.csv?recipient=R.%20Reader%20%26%20crew')
  })

  it('keep a box within the globe: a map turned past the 180th meridian, and one that shows more than the world', () => {
    expect(boxText([170, -10, 190, 10])).toBe('170.000000,-10.000000,-170.000000,10.000000')
    expect(boxText([-300, -95, 300, 95])).toBe('-180.000000,-90.000000,180.000000,90.000000')
  })
})

describe('what a file holds in words', () => {
  it('names the urgent and critical that are left out, or that none are', () => {
    expect(leftOutText({ urgent: 5, critical: 2 })).toBe('Left out: 2 critical, 5 urgent')
    expect(leftOutText({ urgent: 0, critical: 0 })).toBe('Nothing urgent or critical is left out')
  })

  it('names the filter', () => {
    expect(filterText({}, [], {})).toBe('All splices')
    expect(filterText({ classes: ['critical'], circuitIds: [3], voltagesKv: [230], phases: ['A', 'unknown'] }, [{ id: 3, name: '2310' }], { A: 'L1' }))
      .toBe('Only critical; circuit 2310; 230 kV; phase L1, phase not confirmed')
    expect(filterText({ confidences: ['low'], surveyIds: [4], ages: ['3-6', 'never'], evidence: ['infrared'] }, [], {}))
      .toBe('Only low confidence; read in one survey; years since last read: 3-6, never; evidence: infrared')
  })
})
