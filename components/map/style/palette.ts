import { GROUND, type Theme } from '../class-colours'

export interface Palette {
  land: string
  water: string
  shore: string
  river: string
  border: string
  stateLine: string
  countyLine: string
  country: string
  town: string
  city: string
  waterName: string
  halo: string
  /** Circuits seen from near. */
  line: string
  lineName: string
  structure: string
  structureName: string
  band: string
  bandEdge: string
  /** Crossings. */
  crossingWater: string
  crossingWay: string
  /** What is selected, and what sets it off. */
  ink: string
  paper: string
  ringBody: string
  ringText: string
}

/** Muted ground, so that the data carries the colour. Dark is chosen by itself, not turned over. */
export const PALETTES: Record<Theme, Palette> = {
  light: {
    ...GROUND.light, shore: '#b4c4cd', river: '#b3c7d3', border: '#9a948a', stateLine: '#c3bdb2', countyLine: '#e0dbd1',
    country: '#8b857b', town: '#62676c', city: '#3b4045', waterName: '#6688a0', halo: '#f7f5f1',
    line: '#3f474f', lineName: '#2c3238', structure: '#3f474f', structureName: '#4a5056', band: '#eae5d8', bandEdge: '#d3ccba',
    crossingWater: '#5f93b6', crossingWay: '#8f8571', ink: '#15181b', paper: '#ffffff', ringBody: '#fdfcfa', ringText: '#33383d',
  },
  dark: {
    ...GROUND.dark, shore: '#2b3740', river: '#273640', border: '#5b6670', stateLine: '#37414a', countyLine: '#242b32',
    country: '#717c86', town: '#8d97a0', city: '#bcc4cb', waterName: '#587083', halo: '#14181c',
    line: '#9aa5af', lineName: '#c6ced5', structure: '#9aa5af', structureName: '#a3adb6', band: '#20272d', bandEdge: '#323b43',
    crossingWater: '#4f86a8', crossingWay: '#84795f', ink: '#f2f4f5', paper: '#0b0e11', ringBody: '#12171b', ringText: '#d5dbe0',
  },
}
