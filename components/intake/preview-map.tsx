'use client'
import { useState } from 'react'
import { NetworkMap } from '@/components/map/network-map'
import type { MapView } from '@/components/map/types'
import { useBasemap } from '@/components/settings/use-settings'
import { useNetworkState } from '@/components/ui/network-state'
import { useTheme } from '@/components/ui/preferences'
import type { PreviewRow } from '@/lib/contract/intake'
import css from './draft.module.css'

const nothing = () => undefined

/** Where the chosen row of the preview lies, over the lines as they are. */
export function PreviewMap({ row }: { row: PreviewRow }) {
  const theme = useTheme()
  const network = useNetworkState().data
  const basemap = useBasemap()
  const [view, setView] = useState<MapView | null>(null)
  const { lon, lat } = row.becomes
  if (typeof lon !== 'number' || typeof lat !== 'number') {
    return (
      <figure className={css.map}>
        <p className={css.nowhere}>Row {row.row} has no position that could be shown.</p>
        <figcaption>
          Row {row.row}: {row.becomes.text}
        </figcaption>
      </figure>
    )
  }
  return (
    <figure className={css.map}>
      <NetworkMap
        view={view}
        onViewChange={setView}
        filter={{}}
        selection={null}
        onSelect={nothing}
        theme={theme}
        focus={{ lon, lat, zoom: 15, key: `row-${row.row}-${lon}-${lat}` }}
        dataVersion={network?.data_version ?? 0}
        networkBbox={network?.network_bbox ?? null}
        basemap={basemap}
        overlay={{
          readingId: row.row,
          raw: { lon, lat, sigmaM: 0 },
          candidates: [],
          chosenIndex: null,
          onChoose: nothing,
          onDrag: nothing,
        }}
      />
      <figcaption>
        Row {row.row}: {row.becomes.text}
      </figcaption>
    </figure>
  )
}
