import type { ReactNode } from 'react'
import type { z } from 'zod'
import { ClassBar, ClassWords } from '@/components/health/class-bar'
import { lineNames } from '@/components/health/health-rows'
import { ClassMark } from '@/components/map/class-mark'
import { dayText } from '@/components/splice/age'
import type { PhaseLetters } from '@/components/splice/position'
import { cx } from '@/components/ui/class-names'
import { DataTable, num } from '@/components/ui/data-table'
import { InPlaceLink } from '@/components/ui/in-place-link'
import css from '@/components/ui/sheet.module.css'
import { Quantity } from '@/components/ui/states'
import type { circuitDetail } from '@/lib/contract/api'
import type { CircuitHealth } from '@/lib/contract/contract'
import {
  currentMeasure,
  formatRatio,
  formatVoltage,
  lengthMeasure,
  percentMeasure,
  temperatureLimitMeasure,
  type UnitSystem,
} from '@/lib/units/format'
import { formatDateTime } from '@/lib/units/time'

export interface CircuitSheetProps {
  circuit: Omit<z.infer<typeof circuitDetail>, 'phasing'>
  health: CircuitHealth | null
  system: UnitSystem
  timeZone: string
  letters: PhaseLetters
  /** Within Operations the worst splice is selected in place; elsewhere its sheet is opened. */
  onSelectSplice?(id: number): void
  /** Wide pages set it in two columns. */
  wide?: boolean
  tools?: ReactNode
}

/** The title block of one circuit: how it stands, its worst splice, how much of it was looked at, and when. */
export function CircuitSheet({ circuit: c, health, system, timeZone, onSelectSplice, wide, tools }: CircuitSheetProps) {
  return (
    <article className={css.sheet} aria-labelledby="circuit-title">
      <header className={cx(css.part, css.head)}>
        <p className={css.kicker}>
          <span>Circuit{c.voltage_kv === null ? '' : `, ${formatVoltage(c.voltage_kv)}`}</span>
          {c.region && <span>{c.region}</span>}
        </p>
        <div className={css.titleRow}>
          <div>
            <h1 id="circuit-title" className={css.title}>
              {c.name}
            </h1>
            <p>{lineNames(c)}</p>
          </div>
          <p className={css.big}>
            <Quantity {...lengthMeasure(c.length_m, system)} />
          </p>
        </div>
        {tools}
      </header>
      <div className={wide ? css.columns : undefined}>
        <div>
          <section className={css.part}>
            <h2>How its splices stand</h2>
            <ClassBar counts={c.counts} />
            <ClassWords counts={c.counts} />
            {health?.worst_splice && <Worst worst={health.worst_splice} onSelect={onSelectSplice} />}
          </section>
          <section className={css.part}>
            <h2>How much was looked at</h2>
            <Coverage health={health} />
          </section>
        </div>
        <div>
          <section className={css.part}>
            <h2>Sections</h2>
            <DataTable caption={`Sections of ${c.name}`}>
              <thead>
                <tr>
                  <th scope="col">Section</th>
                  <th scope="col">Conductor</th>
                  <th scope="col" className={num}>
                    Rating
                  </th>
                  <th scope="col" className={num}>
                    Length
                  </th>
                </tr>
              </thead>
              <tbody>
                {c.sections.map((s) => (
                  <tr key={s.id}>
                    <th scope="row">
                      {s.name}
                      <span className={css.small} style={{ display: 'block', fontWeight: 400 }}>
                        {[s.from, s.to].filter(Boolean).join(' to ') || `${s.structure_count} structures`}
                      </span>
                    </th>
                    <td>
                      {s.conductor ?? <span className="muted">not known</span>}
                      {s.subconductors > 1 ? ` × ${s.subconductors}` : ''}
                    </td>
                    <td className={num}>
                      {s.rating_a === null ? <span className="muted">not known</span> : <Quantity {...currentMeasure(s.rating_a)} />}
                      {s.max_operating_c !== null && (
                        <span className={css.small} style={{ display: 'block' }}>
                          at <Quantity {...temperatureLimitMeasure(s.max_operating_c, system)} />
                        </span>
                      )}
                    </td>
                    <td className={num}>
                      <Quantity {...lengthMeasure(s.length_m, system)} />
                    </td>
                  </tr>
                ))}
              </tbody>
            </DataTable>
            {c.crossings.length > 0 && <p className={css.note}>Crosses {crossingsText(c.crossings)}.</p>}
          </section>
        </div>
      </div>
      {health && <footer className={cx(css.part, css.small)}>As of {formatDateTime(Date.parse(health.updated_at), timeZone)}.</footer>}
    </article>
  )
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

function Coverage({ health }: { health: CircuitHealth | null }) {
  if (!health) return <p className={css.note}>Not reckoned yet.</p>
  const { coverage } = health
  const last = health.last_surveyed_on === null ? 'No survey yet.' : `Last survey ${dayText(health.last_surveyed_on)}.`
  if (coverage.share === null) return <p className={css.note}>No span with named structures to count by. {last}</p>
  return (
    <p className={css.lead}>
      <strong>
        <Quantity {...percentMeasure(coverage.share)} />
      </strong>{' '}
      of spans and phases ({coverage.covered_span_phases} of {coverage.span_phase_count}). {last}
    </p>
  )
}

/** '2 roads, 1 river'. */
export function crossingsText(crossings: readonly { kind: string }[]): string {
  const counts = new Map<string, number>()
  for (const { kind } of crossings) counts.set(kind, (counts.get(kind) ?? 0) + 1)
  const plural = (kind: string, n: number) => (n === 1 || kind === 'other' ? kind : `${kind}s`)
  return [...counts].map(([kind, n]) => `${n} ${plural(kind, n)}`).join(', ')
}
