import type { ConditionClass } from '@/lib/condition/types'

export type Theme = 'light' | 'dark'

interface ClassColour {
  fill: string
  /** Keeps the shape readable over water and over its neighbours. */
  outline: string
  /** Marks drawn on top of the fill. */
  onFill: string
}

/**
 * One colour a class on each ground, found by search: the smallest difference between any two measured classes is at least 20 (CIEDE2000)
 * for normal, deuteranopic, protanopic and tritanopic sight, and in dark the contrast never falls from class to class and critical is the most
 * colourful of the two that call, so that the worst is seen first. Shape and word always go with colour. class-colours.css says the same to style sheets; a test holds the two together.
 */
export const CLASS_COLOURS: Record<Theme, Record<ConditionClass, ClassColour>> = {
  light: {
    sound: { fill: '#707070', outline: '#3d3d3d', onFill: '#ffffff' },
    watch: { fill: '#4a88c3', outline: '#22486b', onFill: '#ffffff' },
    degraded: { fill: '#9c8b31', outline: '#4f4610', onFill: '#ffffff' },
    urgent: { fill: '#c02000', outline: '#5f1000', onFill: '#ffffff' },
    critical: { fill: '#7f1d65', outline: '#3d0a30', onFill: '#ffffff' },
    unknown: { fill: '#6a6f74', outline: '#3d4043', onFill: '#ffffff' },
  },
  dark: {
    sound: { fill: '#696969', outline: '#0a0d10', onFill: '#ffffff' },
    watch: { fill: '#226daa', outline: '#0a0d10', onFill: '#ffffff' },
    degraded: { fill: '#965c23', outline: '#0a0d10', onFill: '#ffffff' },
    urgent: { fill: '#e08f55', outline: '#0a0d10', onFill: '#1a1200' },
    critical: { fill: '#d3a6ff', outline: '#0a0d10', onFill: '#22063d' },
    unknown: { fill: '#8c949b', outline: '#0a0d10', onFill: '#ffffff' },
  },
}

/** The ground that marks stand on, and water: what contrast is measured against. */
export const GROUND: Record<Theme, { land: string; water: string }> = {
  light: { land: '#f4f2ed', water: '#d5e0e6' },
  dark: { land: '#191e23', water: '#0f1418' },
}

export const CLASS_WORD: Record<ConditionClass, string> = {
  sound: 'sound', watch: 'watch', degraded: 'degraded', urgent: 'urgent', critical: 'critical', unknown: 'unknown',
}

/** Worst first, as people look for them; unknown last, because it is neither. */
export const WORST_FIRST: readonly ConditionClass[] = ['critical', 'urgent', 'degraded', 'watch', 'sound', 'unknown']

/** For style sheets and SVG: the class's colour under whichever theme is on. */
export const classColourVar = (cls: ConditionClass): string => `var(--class-${cls})`
