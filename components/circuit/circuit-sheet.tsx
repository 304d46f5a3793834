import type { ReactNode } from 'react'
import { ClassBar, ClassWords, countsSentence } from '@/components/health/class-bar'
import { evidenceSpan, staleText } from '@/components/health/evidence-age'
import { lineNames } from '@/components/health/health-rows'
import { allLate } from '@/components/health/late'
import { ClassMark } from '@/components/map/class-mark'
import { ageText, dayText } from '@/components/splice/age'
import { cx } from '@/components/ui/class-names'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import { CLASS_WORDS } from '@/lib/condition'
import type { CircuitJson } from '@/lib/contract/api'
import type { CircuitHealth } from '@/lib/contract/contract'
import { currentMeasure, formatLength, formatNumber, formatPercent, formatRatio, formatVoltage, type UnitSystem } from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'
import { CircuitLimits } from './circuit-limits'
import { CoverageFigures } from './coverage-figures'
import { Crossings } from './crossings'
import { apparentPowerMva, limitingSection } from './limits'
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
}

/** The title block of one circuit: how it stands, its worst splice, how much of it was looked at, and when. */
export function CircuitSheet({ circuit: c, health, system, timeZone, nowMs, onSelectSplice, wide, tools }: CircuitSheetProps) {
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
        <p className={css.lead}>{coverageSentence(health, nowMs)}</p>
        {tools}
      </header>
      <div className={wide ? css.columns : undefined}>
        <div>
          <section className={css.part}>
            <h2>How its splices stand</h2>
            <ClassBar counts={c.counts} />
            <ClassWords counts={c.counts} />
            {health?.worst_splice && <Worst worst={health.worst_splice} onSelect={onSelectSplice} />}
            {health && <Late late={health.past_response} unread={health.read_in_late} />}
          </section>
          <section className={css.part}>
            <h2>How much was looked at</h2>
            <CoverageFigures health={health} />
          </section>
        </div>
        <div>
          <section className={css.part}>
            <h2>What it carries</h2>
            <Limit circuit={c} />
            <SectionsTable circuit={c.name} sections={c.sections} system={system} timeZone={timeZone} />
          </section>
          {c.limits.length > 0 && (
            <section className={css.part}>
              <h2>Limits in force</h2>
              <CircuitLimits limits={c.limits} timeZone={timeZone} onSelect={onSelectSplice} />
            </section>
          )}
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
function pressing({ counts, worst_class: worst }: CircuitJson): string {
  const total = Object.values(counts).reduce((sum, n) => sum + n, 0)
  if (total === 0) return 'no splice is known on it yet'
  const of = `of ${formatNumber(total, 0)} ${total === 1 ? 'splice' : 'splices'}`
  if (worst === 'unknown') return `none ${of} assessed`
  const { critical, urgent } = counts
  if (critical + urgent === 0) return `the worst ${of}; none urgent or critical`
  return `${countsSentence({ critical, urgent })} ${of}`
}

function coverageSentence(health: CircuitHealth | null, nowMs: number): string {
  if (!health || health.coverage.share === null || health.coverage.conclusive_share === null) return 'How much of it was looked at is not reckoned yet.'
  const { share, conclusive_share: conclusive } = health.coverage
  const last = health.last_surveyed_on
  const survey = last === null ? 'No survey yet.' : `Last survey ${dayText(last)}, ${ageText(Date.parse(last), nowMs)} ago.`
  return share === 0 ? `Never looked at. ${survey}` : `${formatPercent(conclusive)} looked at conclusively${ageWords(health.coverage)}, ${formatPercent(share)} at all. ${survey}`
}

/** ' (evidence of Apr 2023 to Nov 2026, 12% past re-survey)'. */
function ageWords(coverage: CircuitHealth['coverage']): string {
  const span = evidenceSpan(coverage)
  return span === '' ? '' : ` (${[`evidence of ${span}`, staleText(coverage)].filter(Boolean).join(', ')})`
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
        {worst.ratio === null ? '' : `, ratio ${formatRatio(worst.ratio)}`}
      </span>
      <span className="muted">{worst.position_text}</span>
    </p>
  )
}

function Late({ late, unread }: { late: CircuitHealth['past_response']; unread: CircuitHealth['read_in_late'] }) {
  const { longest_days: days, ...before } = unread
  return (
    <>
      {allLate(late) > 0 && <p className={css.boxed}>Past the response time of their class: {countsSentence(late)}.</p>}
      {allLate(before) > 0 && (
        <p className={css.note}>
          Past the response time before they were read in: {countsSentence(before)}
          {days === null ? '' : `; the longest lay ${formatNumber(days, 0)} days`}. Their response clock runs from when they were first shown.
        </p>
      )}
    </>
  )
}

/** The lowest rating on the way limits the circuit; terminal equipment may limit it further. */
function Limit({ circuit: c }: { circuit: CircuitJson }) {
  const limit = limitingSection(c.sections)
  if (!limit) return <p className={css.note}>What limits it is not known: a section has no rating on record. Ask engineering.</p>
  return (
    <p className={css.lead}>
      <strong>
        <Quantity {...currentMeasure(limit.rating_a)} />
      </strong>{' '}
      per phase
      {c.voltage_kv !== null && `, ${formatNumber(apparentPowerMva(c.voltage_kv, limit.rating_a), 0)} MVA at ${formatVoltage(c.voltage_kv)}`}
      {c.sections.length > 1 && `, limited by section ${limit.name}`}
    </p>
  )
}
