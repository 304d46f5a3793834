import type { ReactNode } from 'react'
import type { Candidate } from '@/lib/contract/contract'
import type { SpliceFilter } from '@/lib/contract/filter'
import type { SurveyFilter } from '@/lib/contract/survey-layer'

export interface MapView { lon: number; lat: number; zoom: number }
export type Selection = { kind: 'splice'; id: number } | { kind: 'circuit'; id: number } | null

/** A structure or a place that was looked for: marked quietly, it has no condition. */
export interface FoundMark { lon: number; lat: number; label: string }

/** An urgent or critical reading in review, where it was taken: it belongs to no splice yet. */
export interface UnsettledMark { reading_id: number; class: 'urgent' | 'critical'; lon: number; lat: number }

/** A doubtful placement drawn over the map: the raw position, its accuracy, the candidates; the mark can be dragged. */
export interface PlacementOverlay {
  readingId: number
  raw: { lon: number; lat: number; sigmaM: number } | null
  /** A stretch of line that is meant as a whole, longitude and latitude in order. */
  course?: readonly (readonly [number, number])[]
  candidates: Candidate[]
  chosenIndex: number | null
  /** Where a person has put the mark, by dragging or by arrow keys; null or absent: at the chosen candidate, else at the raw position. */
  mark?: { lon: number; lat: number } | null
  onChoose(index: number): void
  onDrag(lon: number, lat: number): void
}

/** When spans were last surveyed, drawn instead of the condition of lines. */
export interface SurveyOnMap {
  filter: SurveyFilter
  /** Surveys whose tracks are drawn. */
  trackIds: readonly number[]
  /** The span that is chosen. */
  spanId: number | null
  onSpan(id: number): void
  /** What is known of a span, in words, while the pointer is on it. */
  spanWords(id: number): ReactNode
  /** What its lines mean, beneath a picture of the map. */
  inPicture: string
}

export interface NetworkMapProps {
  /** Null on first load: the map fits the network and reports the view back. */
  view: MapView | null
  onViewChange(view: MapView, bbox: [number, number, number, number]): void
  filter: SpliceFilter
  selection: Selection
  /** Set when something else (the list, search) selects: the map flies there. */
  focus: { lon: number; lat: number; zoom?: number; key: string } | { bbox: [number, number, number, number]; key: string } | null
  onSelect(selection: Selection): void
  /** Raised with every change of the store, so that tiles are asked for again. */
  dataVersion: number
  networkBbox: [number, number, number, number] | null
  basemap: { kind: 'embedded' } | { kind: 'pmtiles'; url: string } | { kind: 'style'; url: string }
  theme: 'light' | 'dark'
  mark?: FoundMark | null
  unsettled?: readonly UnsettledMark[]
  /** One of them was pressed. */
  onUnsettled?(readingId: number): void
  overlay?: PlacementOverlay
  /** Absent or null: the condition. */
  survey?: SurveyOnMap | null
  className?: string
}
