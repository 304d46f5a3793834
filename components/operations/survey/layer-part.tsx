'use client'
import type { ReactNode } from 'react'
import { Segmented } from '@/components/ui/tabs'
import type { usePlan } from '../use-plan'
import { SurveyLegend } from './survey-legend'
import type { SurveyLayer } from './use-survey-layer'
import css from './survey.module.css'

type Layer = 'condition' | 'survey'

export interface LayerPartProps {
  layer: SurveyLayer
  plan: ReturnType<typeof usePlan>
  version: number | undefined
  nowMs: number
  /** The list of what was never surveyed opens. */
  onList(): void
  /** The legend of the condition. */
  condition: ReactNode
}

/** What the map draws of the lines, and what it means. */
export function LayerPart({ layer, plan: { params, setParams }, version, nowMs, onList, condition }: LayerPartProps) {
  const open = layer.on && !params.sel && params['layer-list'] !== null
  const toList = () => {
    if (open) return void setParams({ 'layer-list': null })
    onList()
    void setParams({ 'layer-list': params['layer-list'] ?? 'length' })
  }
  return (
    <div className={css.stack}>
      <Segmented<Layer>
        label="What the map shows" size="small" className={css.layers} value={layer.on ? 'survey' : 'condition'}
        onValueChange={(value) => void setParams({ layer: value === 'survey' ? 'survey' : null, 'layer-span': null })}
        options={[{ value: 'condition', label: 'Condition' }, { value: 'survey', label: 'Survey' }]}
      />
      {!layer.on ? condition : (
        <SurveyLegend
          layer={layer} version={version} nowMs={nowMs} listOpen={open} onList={toList}
          onYears={(years) => void setParams({ 'layer-year': years ?? null })} onPhase={(phase) => void setParams({ 'layer-phase': phase })}
          onTracks={(ids) => void setParams({ 'layer-track': ids ?? null })}
        />
      )}
    </div>
  )
}
