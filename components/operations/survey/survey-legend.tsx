'use client'
import Link from 'next/link'
import { stepOf, stepText } from '@/components/map/survey-steps'
import { Button } from '@/components/ui/button'
import { Chooser } from '@/components/ui/chooser'
import { asSentences } from '@/components/ui/fetch-json'
import { NativeSelect } from '@/components/ui/native-select'
import { usePhaseLetters, useUnitSystem } from '@/components/ui/preferences'
import { Skeleton } from '@/components/ui/states'
import { SURVEY_PHASES, type CoverageSummary, type SurveyPhase } from '@/lib/contract/survey-layer'
import { formatLength, formatNumber } from '@/lib/units/format'
import { useCoverage } from './queries'
import { Swatch } from './swatch'
import type { SurveyLayer } from './use-survey-layer'
import { EXCEPTIONS_ONLY } from './words'
import css from './survey.module.css'

export interface SurveyLegendProps {
  layer: SurveyLayer
  version: number | undefined
  nowMs: number
  onYears(years: number[] | undefined): void
  onPhase(phase: SurveyPhase | null): void
  /** Undefined: the newest survey. */
  onTracks(ids: number[] | undefined): void
  onList(): void
  listOpen: boolean
}

/** What the lines of the survey layer mean, how many spans are each, and which years, phase and tracks it draws. */
export function SurveyLegend(props: SurveyLegendProps) {
  const { layer, version, nowMs, onYears, onPhase, onTracks } = props
  const letters = usePhaseLetters()
  const coverage = useCoverage(layer.filter, version)
  const { data } = coverage
  return (
    <div className={css.legend} role="group" aria-label="When spans were last surveyed">
      <div className={css.choices}>
        <Chooser
          name="Year" chosen={layer.filter.years} onChoose={onYears} short={String} none="any" clear="Any year"
          options={(data?.years ?? []).map((year) => ({ value: year, label: year === data?.first_year ? `${year} or before` : String(year) }))}
        />
        <NativeSelect label="Phase surveyed" value={layer.filter.phases?.[0] ?? ''} onChange={(e) => onPhase(SURVEY_PHASES.find((p) => p === e.target.value) ?? null)}>
          <option value="">All phases</option>
          {SURVEY_PHASES.map((p) => <option key={p} value={p}>Phase {letters[p] ?? p}</option>)}
        </NativeSelect>
        <Chooser
          name="Tracks" chosen={[...layer.trackIds]} onChoose={(ids) => onTracks(ids ?? [])} short={(id) => surveyName(layer, id)} none="none" clear="No tracks"
          options={layer.surveys.map(({ id, name }) => ({ value: id, label: name }))}
        />
      </div>
      {coverage.isError && !data ? (
        <p className={css.trouble} role="alert">
          {asSentences(coverage.error).title} <Button size="small" onClick={() => void coverage.refetch()}>Try again</Button>
        </p>
      ) : !data ? <div className={css.bones} aria-busy="true">{[0, 1, 2, 3].map((i) => <Skeleton key={i} height={12} />)}</div> : <Figures {...props} data={data} nowYear={new Date(nowMs).getUTCFullYear()} />}
    </div>
  )
}

const surveyName = ({ surveys }: SurveyLayer, id: number): string => surveys.find((survey) => survey.id === id)?.name ?? String(id)

function Figures({ data, nowYear, layer, onList, listOpen }: SurveyLegendProps & { data: CoverageSummary; nowYear: number }) {
  const [system] = useUnitSystem()
  const steps = [0, 1, 2, 3].map((step) => data.seen.filter((s) => stepOf(s.year, nowYear) === step))
  const sum = (of: CoverageSummary['seen'], exceptions: boolean) => of.reduce((total, s) => total + (s.exceptions_only === exceptions ? s.spans : 0), 0)
  const patrols = sum(data.seen, true)
  const newestPatrol = steps.findIndex((of) => sum(of, true) > 0)
  const { never } = data
  return (
    <>
      <ul className={css.rows}>
        {steps.map((of, step) => {
          const total = sum(of, true) + sum(of, false)
          return total > 0 && <Row key={step} swatch={<Swatch kind="seen" step={step} />} words={stepText(step, nowYear)} spans={total} />
        })}
        {patrols > 0 && <Row swatch={<Swatch kind="patrol" step={Math.max(0, newestPatrol)} />} words="of these, exceptions only" spans={patrols} title={EXCEPTIONS_ONLY} />}
        {!layer.filter.phases && <Row swatch={<Swatch kind="part" />} words="some phases only" spans={data.part} />}
        {layer.filter.years && <Row swatch={<Swatch kind="elsewhen" />} words="in other years" spans={data.elsewhen} />}
        <Row swatch={<Swatch kind="never" />} words="never surveyed" spans={never.spans} strong />
        {layer.trackIds.length > 0 && <Row swatch={<Swatch kind="track" />} words={layer.trackIds.length === 1 ? `track of ${surveyName(layer, layer.trackIds[0] ?? 0)}` : 'tracks, in time order'} />}
      </ul>
      {patrols > 0 && <p className={css.meaning}>Exceptions only: {EXCEPTIONS_ONLY.charAt(0).toLowerCase() + EXCEPTIONS_ONLY.slice(1)}</p>}
      {data.years.length === 0 && data.span_count > 0 ? <p className={css.meaning}>Nobody surveyed any of these yet. <Link href="/intake">Import readings or survey extents</Link></p> : null}
      {data.span_count === 0 && <p className={css.meaning}>No circuit of the filter has such a phase.</p>}
      <Button size="small" className={css.open} aria-expanded={listOpen} onClick={onList} disabled={never.stretches === 0}>
        {never.stretches === 0 ? 'Nothing was never surveyed' : `List ${formatNumber(never.stretches, 0)} never surveyed, ${formatLength(never.length_m, system)}`}
      </Button>
    </>
  )
}

function Row({ swatch, words, spans, title, strong }: { swatch: React.ReactNode; words: string; spans?: number; title?: string; strong?: boolean }) {
  return (
    <li title={title} data-strong={strong || undefined}>
      {swatch}
      <span>{words}</span>
      {spans !== undefined && <b>{formatNumber(spans, 0)}<span className="visually-hidden"> {spans === 1 ? 'span' : 'spans'}</span></b>}
    </li>
  )
}
