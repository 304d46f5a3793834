'use client'
import { useMemo } from 'react'
import type { SurveyOnMap } from '@/components/map/types'
import { usePhaseLetters } from '@/components/ui/preferences'
import type { SurveyFilter } from '@/lib/contract/survey-layer'
import { useSurveys } from '../queries'
import type { usePlan } from '../use-plan'
import { SpanWords } from './span-words'
import { pictureText } from './words'

const NO_SURVEYS: readonly { id: number; name: string }[] = []

/** The survey layer as the address has it: what it draws follows the list's circuits and voltages, its years and phase are its own. */
export function useSurveyLayer({ params, setParams, filter }: ReturnType<typeof usePlan>, version: number | undefined) {
  const on = params.layer === 'survey'
  const { 'layer-year': years, 'layer-phase': phase, 'layer-track': chosenTracks, 'layer-span': spanId } = params
  const letters = usePhaseLetters()
  const surveys = useSurveys(version).data ?? NO_SURVEYS
  const { circuitIds, voltagesKv } = filter
  const asked = useMemo<SurveyFilter>(
    () => ({ circuitIds, voltagesKv, phases: phase ? [phase] : undefined, years: years?.length ? years : undefined }), [circuitIds, voltagesKv, phase, years])
  const newest = surveys[0]?.id
  const trackIds = useMemo(() => chosenTracks ?? (newest === undefined ? [] : [newest]), [chosenTracks, newest])
  const onMap = useMemo<SurveyOnMap | null>(() => (on ? {
    filter: asked, trackIds, spanId,
    onSpan: (id) => void setParams({ 'layer-span': id }),
    inPicture: pictureText(asked, letters),
    spanWords: (id) => <SpanWords id={id} version={version} />,
  } : null), [on, asked, trackIds, spanId, setParams, version, letters])
  return { on, filter: asked, trackIds, surveys, onMap }
}

export type SurveyLayer = ReturnType<typeof useSurveyLayer>
