'use client'
import { useMemo } from 'react'
import type { Selection } from '@/components/map/types'
import { useCircuits, useSplice } from './queries'
import type { Box } from './view-of'

/** Where something is: a point, or the box that holds it. */
export interface SelectedPlace { lon: number; lat: number; bbox?: Box }

/** The middle of a box, and the box. */
export const placeOfBox = (bbox: Box | null | undefined): SelectedPlace | null =>
  bbox ? { lon: (bbox[0] + bbox[2]) / 2, lat: (bbox[1] + bbox[3]) / 2, bbox } : null

interface Answer {
  place: SelectedPlace | null
  name: string | null
  /** False while the place is still being asked for. */
  settled: boolean
}

/** Where the selected splice or circuit is and what it is called, from the same answers that its sheet is made of. */
export function useSelectedPlace(selection: Selection, version: number | undefined): Answer {
  const isSplice = selection?.kind === 'splice'
  const splice = useSplice(isSplice ? selection.id : null, version)
  const circuits = useCircuits(version)
  const circuit = selection?.kind === 'circuit' ? circuits.data?.find((c) => c.id === selection.id) : undefined
  const answer = isSplice ? splice : circuits
  const at = isSplice ? splice.data : undefined
  const bbox = circuit?.bbox
  const place = useMemo(() => (at ? { lon: at.lon, lat: at.lat } : placeOfBox(bbox)), [at, bbox])
  return { place, name: at?.splice ?? circuit?.name ?? null, settled: answer.isError || answer.data !== undefined }
}
