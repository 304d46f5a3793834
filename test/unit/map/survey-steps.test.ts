import { readFileSync } from 'node:fs'
import { differenceCiede2000, filterDeficiencyDeuter, filterDeficiencyProt, filterDeficiencyTrit, rgb, wcagContrast, type Rgb } from 'culori'
import { describe, expect, it } from 'vitest'
import { CLASS_COLOURS, GROUND, type Theme } from '@/components/map/class-colours'
import { surveyLayers } from '@/components/map/style/survey-layers'
import { stepOf, stepStarts, stepText, SURVEY_COLOURS } from '@/components/map/survey-steps'
import { CONDITION_CLASSES } from '@/lib/condition/types'

const SIGHTS = [(colour: Rgb) => colour, filterDeficiencyDeuter(1), filterDeficiencyProt(1), filterDeficiencyTrit(1)]
const THEMES: Theme[] = ['light', 'dark']
const difference = differenceCiede2000()
const parse = (hex: string): Rgb => rgb(hex)!

describe('steps of years', () => {
  it('are the present year and the last, then two, three, and what came before', () => {
    expect(stepStarts(2026)).toEqual([2025, 2023, 2020])
    expect([2027, 2026, 2025, 2024, 2023, 2022, 2020, 2019, 1990].map((year) => stepOf(year, 2026))).toEqual([0, 0, 0, 1, 1, 2, 2, 3, 3])
  })

  it('are named by their years', () => {
    expect([0, 1, 2, 3].map((step) => stepText(step, 2026))).toEqual(['2025 and 2026', '2023 and 2024', '2020 to 2022', '2019 or before'])
  })
})

describe.each(THEMES)('survey colours on the %s ground', (theme) => {
  const colours = SURVEY_COLOURS[theme].map(parse)

  it('stand out from land by 3:1 (WCAG 2.2, 1.4.11), the newer the more', () => {
    const contrasts = SURVEY_COLOURS[theme].map((hex) => wcagContrast(hex, GROUND[theme].land))
    expect(Math.min(...contrasts)).toBeGreaterThanOrEqual(3)
    expect(contrasts).toEqual([...contrasts].sort((a, b) => b - a))
  })

  it('stay apart from step to step by at least 9 (CIEDE2000) to every sight', () => {
    for (const see of SIGHTS) for (const [i, colour] of colours.slice(1).entries()) expect(difference(see(colour), see(colours[i]!))).toBeGreaterThanOrEqual(9)
  })

  it('are no class colour: at least 15 (CIEDE2000) from each', () => {
    for (const colour of colours) for (const c of CONDITION_CLASSES) expect(difference(colour, parse(CLASS_COLOURS[theme][c].fill))).toBeGreaterThanOrEqual(15)
  })

  it('are those of the legend', () => {
    const css = readFileSync('components/operations/survey/survey.module.css', 'utf8')
    SURVEY_COLOURS[theme].forEach((hex, step) => {
      const pair = new RegExp(`--survey-${step}: light-dark\\((#\\w+), (#\\w+)\\)`).exec(css)
      expect(pair?.[theme === 'light' ? 1 : 2]).toBe(hex)
    })
  })

  it('come with a form of their own for exceptions only, some phases and never, and nothing is drawn unasked', () => {
    const layers = surveyLayers(theme, 2026)
    for (const layer of layers) expect([layer.id, layer.layout?.visibility]).toEqual([layer.id, 'none'])
    for (const of of ['stretches', 'spans', 'phases']) {
      const drawn = layers.filter((l) => l.id.startsWith(`survey-${of}-`)).map((l) => l.id.replace(`survey-${of}-`, ''))
      expect(drawn).toEqual(['casing', 'elsewhen', 'edge', 'hollow', 'thread', 'seen', 'patrol'])
      expect(layers.find((l) => l.id === `survey-${of}-patrol`)?.paint).toHaveProperty('line-dasharray')
    }
  })
})
