'use client'
import { useState } from 'react'
import { NetworkMap } from '@/components/map/network-map'
import type { MapView } from '@/components/map/types'
import { useBasemap } from '@/components/settings/use-settings'
import { useNetworkState } from '@/components/ui/network-state'
import { useTheme } from '@/components/ui/preferences'
import type { PreviewRow } from '@/lib/contract/intake'
import { drawnOf } from './drawn'
import css from './draft.module.css'

const nothing = () => undefined

/** Where the chosen row of the preview lies, or the stretch of line that it names, over the lines as they are. */
export function PreviewMap({ row }: { row: PreviewRow }) {
  const theme = useTheme()
  const network = useNetworkState().data
  const basemap = useBasemap()
  const [view, setView] = useState<MapView | null>(null)
  const drawn = drawnOf(row)
  if (drawn === null) {
    return (
      <figure className={css.map}>
        <p className={css.nowhere}>
          {row.becomes.state === 'rejected'
            ? `Row ${row.row} is not read as it stands, so it is not on the map.`
            : `Row ${row.row} is not on the map: it has no position, and names no structures of a line that is known.`}
        </p>
        <figcaption>
          Row {row.row}: {row.becomes.text}
        </figcaption>
      </figure>
    )
  }
  const { raw, course, bbox } = drawn
  return (
    <figure className={css.map}>
      <NetworkMap
        view={view}
        onViewChange={setView}
        filter={{}}
        selection={null}
        onSelect={nothing}
        theme={theme}
        focus={{ bbox, key: `row-${row.row}-${bbox.join()}` }}
        dataVersion={network?.data_version ?? 0}
        networkBbox={network?.network_bbox ?? null}
        basemap={basemap}
        overlay={{
          readingId: row.row,
          raw: raw && { ...raw, sigmaM: 0 },
          course,
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
