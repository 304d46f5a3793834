// @vitest-environment happy-dom
import { act, createElement } from 'react'
import { createRoot, type Root } from 'react-dom/client'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { hiddenText, Legend, withClass, type LegendProps } from '@/components/map/legend'
import { CONDITION_CLASSES } from '@/lib/condition/types'

beforeAll(() => void vi.stubGlobal('IS_REACT_ACT_ENVIRONMENT', true))
afterAll(() => void vi.unstubAllGlobals())

const counts = { sound: 40, watch: 30, degraded: 20, urgent: 2, critical: 1, unknown: 7 }

describe('the legend as a filter', () => {
  let root: Root
  let place: HTMLElement
  beforeEach(() => {
    place = document.body.appendChild(document.createElement('div'))
    root = createRoot(place)
  })
  afterEach(() => {
    act(() => root.unmount())
    place.remove()
  })
  const show = (props: Partial<LegendProps>) => {
    const onFilterChange = vi.fn()
    act(() => root.render(createElement(Legend, { filter: {}, counts, soundPast: 0, unsettled: { urgent: 0, critical: 0 }, hidden: null, onFilterChange, ...props })))
    return onFilterChange
  }
  const buttons = () => [...place.querySelectorAll('button')]
  const switches = () => buttons().filter((b) => !b.hasAttribute('aria-label'))
  const only = (name: string) => buttons().find((b) => b.getAttribute('aria-label') === name)
  const button = (word: string) => buttons().find((b) => b.textContent?.includes(word))

  it('names every class with its count, worst first, as switches that the keyboard reaches', () => {
    show({})
    expect(switches().map((b) => b.textContent)).toEqual(['critical1shown', 'urgent2shown', 'degraded20shown', 'watch30shown', 'sound40shown', 'unknown7shown'])
    expect(switches().every((b) => b.getAttribute('aria-pressed') === 'true')).toBe(true)
    expect(buttons().every((b) => b.tabIndex === 0)).toBe(true)
  })

  it('leaves one class alone by its own button, says so, and brings all back by the same', () => {
    const onFilterChange = show({ filter: { circuitIds: [4] } })
    act(() => only('Only watch')?.click())
    expect(onFilterChange).toHaveBeenCalledWith({ circuitIds: [4], classes: ['watch'] })
    const back = show({ filter: { circuitIds: [4], classes: ['watch'] }, hidden: { urgent: 2, critical: 1 } })
    expect(button('watch')?.textContent).toBe('watch30shown')
    expect(button('sound')?.textContent).toBe('sound40hidden')
    expect(place.querySelector('[role="status"]')?.textContent).toContain('1 critical and 2 urgent hidden by the filter')
    expect(only('All classes again')?.textContent).toBe('all')
    act(() => only('All classes again')?.click())
    expect(back).toHaveBeenCalledWith({ circuitIds: [4], classes: undefined })
  })

  it('says how many of the sound ones were to be measured again by now', () => {
    show({ soundPast: 25 })
    expect(button('sound')?.textContent).toBe('sound40shown  25 past re-measure')
    expect(button('sound')?.querySelectorAll('svg[data-past="sound"]')).toHaveLength(1)
  })

  it('adds the readings that belong to no splice yet, which the counts do not hold', () => {
    show({ unsettled: { urgent: 1, critical: 0 } })
    expect([button('critical')?.textContent, button('urgent')?.textContent]).toEqual(['critical1shown', 'urgent2shown +1 place not settled'])
  })

  it('takes a class out of the filter and leaves the rest of the filter alone', () => {
    const onFilterChange = show({ filter: { circuitIds: [4] } })
    act(() => button('sound')?.click())
    expect(onFilterChange).toHaveBeenCalledWith({ circuitIds: [4], classes: CONDITION_CLASSES.filter((c) => c !== 'sound') })
  })

  it('says what of the urgent and critical it hides, and shows all again', () => {
    const onFilterChange = show({ filter: { classes: ['sound'] }, hidden: { urgent: 2, critical: 1 } })
    expect(place.querySelector('[role="status"]')?.textContent).toContain('1 critical and 2 urgent hidden by the filter')
    expect(button('critical')?.getAttribute('aria-pressed')).toBe('false')
    act(() => button('Show all')?.click())
    expect(onFilterChange).toHaveBeenCalledWith({})
  })

  it('says nothing where nothing of the kind is hidden', () => {
    show({ filter: { classes: ['critical', 'urgent'] }, hidden: { urgent: 0, critical: 0 } })
    expect(place.querySelector('[role="status"]')).toBeNull()
    expect([hiddenText(null), hiddenText({ urgent: 3, critical: 0 })]).toEqual([null, '3 urgent hidden by the filter'])
  })

  it('is no filter at all once every class is back', () => {
    const without = withClass({}, 'watch')
    expect(without.classes).not.toContain('watch')
    expect(withClass(without, 'watch')).toEqual({ classes: undefined })
  })
})
