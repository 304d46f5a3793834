'use client'
import { useMemo } from 'react'
import { NetworkMap } from '@/components/map/network-map'
import type { MapView, PlacementOverlay } from '@/components/map/types'
import { useBasemap } from '@/components/settings/use-settings'
import { useNetworkState } from '@/components/ui/network-state'
import { useTheme } from '@/components/ui/preferences'
import type { ReviewItem } from '@/lib/contract/contract'
import type { DecisionChange, DecisionDraft } from './decision'
import { frameOf, sigmaOf } from './frame'
import css from './review.module.css'

const nothing = () => undefined

/** The raw position with its accuracy, the candidates by number, and the mark that can be dragged. */
export function ReviewMap({
  item,
  draft,
  view,
  onView,
  onChange,
}: {
  item: ReviewItem
  draft: DecisionDraft | null
  view: MapView | null
  onView(view: MapView): void
  onChange(change: DecisionChange): void
}) {
  const theme = useTheme()
  const basemap = useBasemap()
  const network = useNetworkState().data
  const { reading } = item
  const focus = useMemo(() => frameOf(item), [item])
  const raw = reading.lon === null || reading.lat === null ? null : { lon: reading.lon, lat: reading.lat, sigmaM: sigmaOf(reading) }
  const overlay: PlacementOverlay = {
    readingId: reading.id,
    raw,
    candidates: item.candidates,
    chosenIndex: draft === null || draft.mark !== null ? null : draft.candidate,
    mark: draft?.mark ?? null,
    onChoose: (index) => onChange({ type: 'candidate', index }),
    onDrag: (lon, lat) => onChange({ type: 'mark', mark: { lon, lat } }),
  }
  return (
    <NetworkMap
      className={css.map}
      view={view}
      onViewChange={onView}
      filter={{}}
      selection={null}
      onSelect={nothing}
      focus={focus}
      dataVersion={network?.data_version ?? 0}
      networkBbox={network?.network_bbox ?? null}
      basemap={basemap}
      theme={theme}
      overlay={overlay}
    />
  )
}
