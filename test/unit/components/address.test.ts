import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formatPanels, parsePanels } from '@/components/operations/panels'
import { namesakes, type FoundItem } from '@/components/operations/search-query'
import { CLOSE_ZOOM, isInView, viewOf, viewOfBox } from '@/components/operations/view-of'
import { structureMark } from '@/components/operations/use-go-to'
import { formatMark, formatSelection, formatView, parseMark, parseSelection, parseView } from '@/components/operations/view-text'

const view = fc.record({
  lon: fc.double({ min: -180, max: 180, noNaN: true }),
  lat: fc.double({ min: -90, max: 90, noNaN: true }),
  zoom: fc.double({ min: 0, max: 24, noNaN: true }),
})

describe('the address of a view', () => {
  it('comes back as it was written, to about a metre', () => {
    fc.assert(
      fc.property(view, (v) => {
        const back = parseView(formatView(v))
        expect(back).not.toBeNull()
        expect(Math.abs((back?.lat ?? 0) - v.lat)).toBeLessThanOrEqual(0.000_005_1)
        expect(Math.abs((back?.lon ?? 0) - v.lon)).toBeLessThanOrEqual(0.000_005_1)
        expect(formatView(back ?? v)).toBe(formatView(v))
      }),
    )
  })

  it('refuses what is no place on earth', () => {
    for (const bad of ['', '1,2', '91,0,3', '0,181,3', '0,0,25', 'a,b,c', '1,2,3,4', '1,,3', 'NaN,0,1']) expect(parseView(bad)).toBeNull()
  })

  it('keeps what was found, whatever its name, and refuses what is no place', () => {
    for (const label of ['STR 045', '47.50000, -113.50000', 'Straße, 12/3']) {
      expect(parseMark(formatMark({ lat: 47.5, lon: -113.5, label }))).toEqual({ lat: 47.5, lon: -113.5, label })
    }
    for (const bad of ['', '1,2', '1,2,', '91,0,x', '0,181,x', 'a,b,c', '1..2,3,x']) expect(parseMark(bad)).toBeNull()
  })

  it('keeps a selection and refuses a made-up one', () => {
    expect(parseSelection(formatSelection({ kind: 'splice', id: 12 }))).toEqual({ kind: 'splice', id: 12 })
    for (const bad of ['splice-0', 'span-3', 'circuit-1e3', 'splice-', '<script>']) expect(parseSelection(bad)).toBeNull()
  })

  it('remembers each state of the panels', () => {
    for (const list of [true, false])
      for (const sheet of [true, false]) for (const strip of [true, false]) expect(parsePanels(formatPanels({ list, sheet, strip }))).toEqual({ list, sheet, strip })
    expect(parsePanels(undefined)).toEqual({ list: true, sheet: true, strip: true })
    // Of before there was a strip.
    expect(parsePanels('list')).toEqual({ list: true, sheet: false, strip: true })
  })
})

describe('where the map goes', () => {
  const mercatorY = (lat: number) => 0.5 - Math.log(Math.tan(Math.PI / 4 + (lat * Math.PI) / 360)) / (2 * Math.PI)

  it('shows a box whole on the screen it is meant for', () => {
    const box = [-113, 45.5, -111, 47] as const
    const size = { widthPx: 720, heightPx: 800 }
    const { zoom, lon, lat } = viewOfBox(box, size)
    const worldPx = 512 * 2 ** zoom
    expect(((box[2] - box[0]) / 360) * worldPx).toBeLessThanOrEqual(size.widthPx)
    expect((mercatorY(box[1]) - mercatorY(box[3])) * worldPx).toBeLessThanOrEqual(size.heightPx)
    expect({ lon, lat }).toEqual({ lon: -112, lat: 46.25 })
  })

  it('never goes closer to a box than where neighbours part, and takes a lone point close', () => {
    expect(viewOfBox([-112, 46, -112, 46], { widthPx: 500, heightPx: 500 }).zoom).toBe(CLOSE_ZOOM)
    expect(viewOf({ kind: 'splice', lon: 1, lat: 2 }, { widthPx: 500, heightPx: 500 })).toEqual({ lon: 1, lat: 2, zoom: CLOSE_ZOOM })
  })
})

describe('a place in a view', () => {
  const view = [-114, 47, -113, 48] as const
  it('is seen where the point lies, or any of its box', () => {
    expect([isInView({ lon: -113.5, lat: 47.5 }, view), isInView({ lon: -112.9, lat: 47.5 }, view)]).toEqual([true, false])
    expect(isInView({ lon: -112, lat: 47, bbox: [-113.1, 46, -111, 47.2] }, view)).toBe(true)
    expect(isInView({ lon: -112, lat: 46, bbox: [-113.1, 45, -111, 46.9] }, view)).toBe(false)
  })
})

describe('the mark of a structure that was found', () => {
  it('names its circuits beside its number, since lines number their structures alike', () => {
    expect(structureMark('122', ['2310', '2320'])).toBe('STR 122 · 2310, 2320')
    expect(structureMark('12/3', ['1', '2', '3', '4', '5'])).toBe('STR 12/3 · 1, 2, 3 and 2 more')
    expect(structureMark('45A', [])).toBe('STR 45A')
  })
})

describe('namesakes among what was found', () => {
  const item = (kind: FoundItem['kind'], label: string): FoundItem => ({ kind, id: 1, label, detail: null, circuits: [], lon: 0, lat: 0 })
  it('are those of one kind that bear the very name', () => {
    const items = [item('structure', '045'), item('structure', '045'), item('structure', '045A'), item('splice', '045')]
    expect(namesakes(items, ' str 045').length).toBe(2)
    expect(namesakes(items, '04')).toEqual([])
  })
})
