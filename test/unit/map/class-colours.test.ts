import { readFileSync } from 'node:fs'
import {
  differenceCiede2000,
  filterDeficiencyDeuter,
  filterDeficiencyProt,
  filterDeficiencyTrit,
  oklch,
  rgb,
  wcagContrast,
  type Rgb,
} from 'culori'
import { describe, expect, it } from 'vitest'
import { CLASS_COLOURS, GROUND, WORST_FIRST, type Theme } from '@/components/map/class-colours'
import { CLASS_SHAPES, isPastClass, PAST_SHAPES } from '@/components/map/class-shapes'
import { SPLICE_LAYER, spliceLayers } from '@/components/map/style/splice-layers'
import { CONDITION_CLASSES, MEASURED_CLASSES } from '@/lib/condition/types'

const same = (colour: Rgb) => colour
const SIGHTS = {
  normal: same,
  deuteranopia: filterDeficiencyDeuter(1),
  protanopia: filterDeficiencyProt(1),
  tritanopia: filterDeficiencyTrit(1),
}
const THEMES: Theme[] = ['light', 'dark']
const difference = differenceCiede2000()

function parse(hex: string): Rgb {
  const colour = rgb(hex)
  if (!colour) throw new Error(`${hex} is no colour`)
  return colour
}

describe.each(THEMES)('class colours on the %s ground', (theme) => {
  const fills = MEASURED_CLASSES.map((c) => CLASS_COLOURS[theme][c].fill)

  it.each(Object.entries(SIGHTS))('stay apart to %s by at least 20 (CIEDE2000)', (_, see) => {
    const seen = fills.map((hex) => see(parse(hex)))
    const differences = seen.flatMap((a, i) => seen.slice(0, i).map((b) => difference(a, b)))
    expect(Math.min(...differences)).toBeGreaterThanOrEqual(20)
  })

  it('stand out from land by 3:1 (WCAG 2.2, 1.4.11)', () => {
    for (const c of CONDITION_CLASSES) expect(wcagContrast(CLASS_COLOURS[theme][c].fill, GROUND[theme].land)).toBeGreaterThanOrEqual(3)
  })

  it('stand out from water by 3:1 with their outline', () => {
    for (const c of CONDITION_CLASSES) {
      const { fill, outline } = CLASS_COLOURS[theme][c]
      expect(Math.max(wcagContrast(fill, GROUND[theme].water), wcagContrast(outline, GROUND[theme].water))).toBeGreaterThanOrEqual(3)
    }
  })

  it('carry a readable count on urgent and critical (4.5:1)', () => {
    for (const c of ['urgent', 'critical'] as const) {
      const { fill, onFill } = CLASS_COLOURS[theme][c]
      expect(wcagContrast(fill, onFill)).toBeGreaterThanOrEqual(4.5)
    }
  })
})

describe('classes on the map', () => {
  it('never fall in contrast from class to class in dark', () => {
    const contrasts = MEASURED_CLASSES.map((c) => wcagContrast(CLASS_COLOURS.dark[c].fill, GROUND.dark.land))
    expect(contrasts).toEqual([...contrasts].sort((a, b) => a - b))
  })

  it('show critical before urgent in dark: more contrast by a fifth and no less colour (chroma in OKLCH)', () => {
    const { urgent, critical } = CLASS_COLOURS.dark
    expect(wcagContrast(critical.fill, GROUND.dark.land) / wcagContrast(urgent.fill, GROUND.dark.land)).toBeGreaterThanOrEqual(1.2)
    expect(oklch(critical.fill)?.c).toBeGreaterThanOrEqual(oklch(urgent.fill)?.c ?? NaN)
  })

  it('grow with the class', () => {
    const sizes = MEASURED_CLASSES.map((c) => CLASS_SHAPES[c].mapPx)
    expect(sizes).toEqual([...sizes].sort((a, b) => a - b))
  })

  it('differ in shape, not in colour alone', () => {
    expect(new Set(CONDITION_CLASSES.map((c) => JSON.stringify([CLASS_SHAPES[c].path, CLASS_SHAPES[c].hollow]))).size).toBe(
      CONDITION_CLASSES.length,
    )
    expect(CONDITION_CLASSES.filter((c) => CLASS_SHAPES[c].sign)).toEqual(['critical'])
    expect(CONDITION_CLASSES.filter((c) => CLASS_SHAPES[c].hollow?.dash)).toEqual(['unknown'])
  })

  it('are named worst first, unknown last', () => {
    expect(WORST_FIRST).toEqual([...[...MEASURED_CLASSES].reverse(), 'unknown'])
  })

  it('have the same colours in style sheets', () => {
    const css = readFileSync(new URL('../../../components/map/class-colours.css', import.meta.url), 'utf8')
    for (const c of CONDITION_CLASSES) {
      const { light, dark } = { light: CLASS_COLOURS.light[c], dark: CLASS_COLOURS.dark[c] }
      expect(css).toContain(`--class-${c}: light-dark(${light.fill}, ${dark.fill});`)
      expect(css).toContain(`--on-class-${c}: light-dark(${light.onFill}, ${dark.onFill});`)
    }
  })
})

describe('the mark of what is past its re-measure', () => {
  it('is told from every class by its shape alone, and the map draws it where the tile says so', () => {
    const marks = CONDITION_CLASSES.map((c) => CLASS_SHAPES[c].path)
    for (const { outline, half } of Object.values(PAST_SHAPES)) {
      expect(marks).not.toContain(half)
      expect(half).not.toBe(outline)
    }
    expect(CONDITION_CLASSES.filter(isPastClass)).toEqual(['sound', 'watch'])
    const marksLayer = spliceLayers('light').find(({ id }) => id === SPLICE_LAYER)
    expect(JSON.stringify(marksLayer?.layout)).toContain('["case",["has","past"],":past",""]')
  })
})
