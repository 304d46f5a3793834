import Link from 'next/link'
import type { ReactNode } from 'react'
import { ClassBar, ClassWords, countsSentence } from '@/components/health/class-bar'
import { evidenceSpan, methodText } from '@/components/health/evidence-age'
import { lineNames } from '@/components/health/health-rows'
import { allLate, longestWords, sinceLearned } from '@/components/health/late'
import { Unsettled, unsettledText } from '@/components/health/unsettled'
import { ClassMark } from '@/components/map/class-mark'
import { agoText, dayText } from '@/components/splice/age'
import { cx } from '@/components/ui/class-names'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { unbroken } from '@/components/ui/unbroken'
import { CLASS_WORDS } from '@/lib/condition'
import type { CircuitJson } from '@/lib/contract/api'
import type { CircuitHealth } from '@/lib/contract/contract'
import { formatEdge, formatLength, formatNumber, formatPercent, formatRatio, formatVoltage, type UnitSystem } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { CircuitLimits } from './circuit-limits'
import { CoverageFigures } from './coverage-figures'
import { Crossings } from './crossings'
import { flowSentence } from './flow-sentence'
import { IfItTripsOfCircuit } from './if-it-trips'
import { MayCarry } from './may-carry'
import { SectionsTable } from './sections-table'

export interface CircuitSheetProps {
  circuit: CircuitJson
  health: CircuitHealth | null
  system: UnitSystem
  timeZone: string
  nowMs: number
  /** Within Operations the worst splice is selected in place; elsewhere its sheet is opened. */
  onSelectSplice?(id: number): void
  /** Wide pages set it in two columns. */
  wide?: boolean
  tools?: ReactNode
  /** Where it is noted who loses supply, what isolates it and who is called. */
  note?: ReactNode
}

/** The title block of one circuit: what flows against what limits it, how it stands, its worst splice, and then how much of it was looked at, and when. */
export function CircuitSheet({ circuit: c, health, system, timeZone, nowMs, onSelectSplice, wide, tools, note }: CircuitSheetProps) {
  const flow = flowSentence(c, timeZone)
  return (
    <article className={css.sheet} aria-labelledby="circuit-title">
      <header className={cx(css.part, css.head)}>
        <p className={css.kicker}>
          <span>Circuit{c.voltage_kv === null ? '' : `, ${formatVoltage(c.voltage_kv)}`}</span>
          <span>{formatLength(c.length_m, system)}</span>
          {c.region && <span>{c.region}</span>}
        </p>
        <div>
          <h1 id="circuit-title" className={css.title}>
            {c.name}
          </h1>
          <p>{lineNames(c)}</p>
        </div>
        <p className={cx(css.big, css.state)}>
          <ClassMark class={c.worst_class} size={28} />
          <span>
            {CLASS_WORDS[c.worst_class]}
            <small>{pressing(c)}</small>
          </span>
        </p>
        {flow.text !== '' && <p className={cx(css.lead, flow.over && css.overdue)}>{unbroken(flow.text)}</p>}
        {tools && <div className={cx(css.tools, 'no-print')}>{tools}</div>}
      </header>
      <div className={wide ? css.columns : undefined}>
        <div>
          <section className={css.part}>
            <h2>What it may carry</h2>
            <MayCarry circuit={c} onSelectSplice={onSelectSplice} />
            <SectionsTable circuit={c.name} sections={c.sections} system={system} timeZone={timeZone} />
            <p className="no-print">
              <Link href={`/loading?circuit=${c.id}`}>How hot would its splices be at a load?</Link>
            </p>
          </section>
          <section className={css.part}>
            <h2>How its splices stand</h2>
            <ClassBar counts={c.counts} soundPast={c.sound_past_re_measure} />
            <ClassWords counts={c.counts} soundPast={c.sound_past_re_measure} />
            <Unknown of={c.unknown} />
            {unsettledText(c.unsettled) && (
              <p className={css.boxed}>
                <Unsettled of={c.unsettled} />: by its own numbers, on a reading that waits in review and may be of this circuit.
              </p>
            )}
            {health?.worst_splice && <Worst worst={health.worst_splice} onSelect={onSelectSplice} />}
            {health && <Late overdue={health.overdue} late={health.past_response} timeZone={timeZone} onSelect={onSelectSplice} />}
          </section>
        </div>
        <div>
          {c.limits.length > 0 && (
            <section className={css.part}>
              <h2>Limits on the register</h2>
              <CircuitLimits limits={c.limits} timeZone={timeZone} onSelect={onSelectSplice} />
            </section>
          )}
          <IfItTripsOfCircuit circuit={c} timeZone={timeZone} note={note} />
          <section className={css.part}>
            <h2>How much was looked at</h2>
            <p>{coverageSentence(health, nowMs)}</p>
            <CoverageFigures health={health} />
          </section>
          <section className={css.part}>
            <h2>What it crosses</h2>
            <Crossings crossings={c.crossings} system={system} />
          </section>
        </div>
      </div>
      {health && <footer className={cx(css.part, css.small)}>As of {formatDateTime(Date.parse(health.updated_at), timeZone)}.</footer>}
    </article>
  )
}

/** '2 critical, 5 urgent of 214 splices': what presses first, among how many. */
function pressing({ counts, worst_class: worst, unsettled }: CircuitJson): string {
  const total = Object.values(counts).reduce((sum, n) => sum + n, 0)
  if (total === 0) return 'no splice is known on it yet'
  const of = `of ${formatNumber(total, 0)} ${total === 1 ? 'splice' : 'splices'}`
  if (worst === 'unknown') return `none ${of} assessed`
  const { critical, urgent } = counts
  const beside = unsettledText(unsettled)
  if (critical + urgent === 0) return beside === '' ? `the worst ${of}; none urgent or critical` : beside
  return [`${countsSentence({ critical, urgent })} ${of}`, beside].filter(Boolean).join('; ')
}

/** What is not known is told from what is sound, and why it is not known. */
function Unknown({ of: { never_looked_at: never, inconclusive, passed_by: passed } }: { of: CircuitJson['unknown'] }) {
  if (never + inconclusive + passed === 0) return null
  const parts = [
    never > 0 ? `${formatNumber(never, 0)} never looked at` : '', inconclusive > 0 ? `${formatNumber(inconclusive, 0)} with an inconclusive reading` : '',
    passed > 0 ? `${formatNumber(passed, 0)} never read ${passed === 1 ? 'itself' : 'themselves'} (flight or patrol passed, no exception reported)` : '',
  ].filter(Boolean)
  return <p className={css.note}>Of unknown condition, which is never sound: {parts.join(', ')}.</p>
}

function coverageSentence(health: CircuitHealth | null, nowMs: number): string {
  if (!health || health.coverage.share === null || health.coverage.conclusive_share === null) return 'How much of it was looked at is not reckoned yet.'
  const { share, conclusive_span_phases: proved, conclusive_stale_span_phases: stale, conclusive_stale_share: older, span_phase_count: all } = health.coverage
  const current = proved - stale
  const last = health.last_surveyed_on
  const survey = last === null ? 'No survey yet.' : `Last survey ${dayText(last)}, ${agoText(Date.parse(last), nowMs)}.`
  if (share === 0) return `Never looked at. ${survey}`
  const span = evidenceSpan(health.coverage)
  const method = methodText(current, health.coverage, all)
  const lead = `${formatPercent(current / all)} looked at conclusively${stale > 0 ? ' within the re-survey interval' : ''}${method === '' ? '' : ` (${method})`}`
  const longer = stale > 0 && older !== null ? `, ${formatPercent(older)} longer ago` : ''
  return `${lead}${longer}${span === '' ? '' : `; evidence of ${span}`}. ${formatPercent(share)} looked at, whatever it could show. ${survey}`
}

function Worst({ worst, onSelect }: { worst: NonNullable<CircuitHealth['worst_splice']>; onSelect?(id: number): void }) {
  return (
    <p className={css.row}>
      <span>Worst:</span>
      <ClassMark class={worst.class} size={16} />
      <InPlaceLink href={`/splices/${worst.id}`} onSelect={onSelect && (() => onSelect(worst.id))}>
        {worst.splice}
      </InPlaceLink>
      <span>
        {worst.class}
        {worst.ratio === null ? '' : `, measured ratio ${formatRatio(worst.ratio)}${worst.own_edge === null ? '' : `; ${worst.class} from ${formatEdge(worst.own_edge)} on this section`}`}
      </span>
      <span className="muted">{worst.position_text}</span>
    </p>
  )
}

/** Both clocks, the worse one first: since the reading was taken, and since its class was shown here. */
function Late({ overdue, late, timeZone, onSelect }: {
  overdue: CircuitHealth['overdue']; late: CircuitHealth['past_response']; timeZone: string; onSelect?(id: number): void
}) {
  const all = allLate(overdue)
  const { longest } = overdue
  if (all === 0) return null
  return (
    <p className={css.boxed}>
      <strong>{formatNumber(all, 0)} overdue</strong> by when {all === 1 ? 'it was' : 'they were'} found: {countsSentence(overdue)}
      {longest && (
        <>
          , the longest{' '}
          <InPlaceLink href={`/splices/${longest.id}`} onSelect={onSelect && (() => onSelect(longest.id))}>
            {longest.splice}
          </InPlaceLink>
          , {longestWords(longest, timeZone)}
        </>
      )}
      ; {sinceLearned(late)}.
    </p>
  )
}
