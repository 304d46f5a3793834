import { findingOf, lookAt, type Finding } from '@/components/circuit/coverage'
import { ClassMark } from '@/components/map/class-mark'
import { phaseText, spanText } from '@/components/splice/position'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import type { CircuitStrip } from '@/lib/contract/strip'
import { formatLineDistance, formatRatio } from '@/lib/units/format'
import type { AxisSplice, StripModel } from './model'
import type { HiddenSplices } from './filtered'
import { LeftOut } from './left-out'
import { PLANNED, standingText, type StripWords } from './words'
import css from './strip.module.css'

const LOOKED: Record<Finding, string> = {
  recent: 'conclusive within 2 years', older: 'conclusive within 6 years', old: 'conclusive longer ago', inconclusive: 'looked at, proves nothing', never: 'never looked at',
}

/** 'looked at, proves nothing; exceptions only': by a flight or patrol that wrote down its finds alone, of which no reading means that nothing was found. */
const lookedText = (look: ReturnType<typeof lookAt>, nowMs: number): string => `${LOOKED[findingOf(look, nowMs)]}${look?.exceptions_only ? '; exceptions only' : ''}`

/** The strip in words: splices by line distance, then what was looked at, crossings and planned work. */
export function StripTable({ strip, model, hidden, words, onPick, onClearFilter }: {
  strip: CircuitStrip; model: StripModel; hidden: readonly HiddenSplices[]; words: StripWords; onPick(splice: AxisSplice): void; onClearFilter(): void
}) {
  const taps = strip.sections.length > 1
  const sectionName = new Map(strip.sections.map(({ id, name }) => [id, name]))
  return (
    <div className={css.table}>
      <LeftOut hidden={hidden} onClear={onClearFilter} />
      <DataTable caption={`Splices of ${strip.circuit} by line distance`}>
        <thead>
          <tr>
            {taps && <th scope="col">Section</th>}
            <th scope="col" className={num}>Line distance</th><th scope="col">Splice</th><th scope="col">Class</th>
            <th scope="col" className={num}>Ratio measured</th><th scope="col">Phase</th><th scope="col">Span</th>
          </tr>
        </thead>
        <tbody>
          {model.splices.map((s) => (
            <tr key={s.id}>
              {taps && <td>{sectionName.get(s.section_id)}</td>}
              <td className={num}>{formatLineDistance(s.line_distance_m, words.system)}</td>
              <th scope="row"><Button size="small" variant="quiet" onClick={() => onPick(s)}>{s.splice}</Button></th>
              <td><ClassMark class={s.class} size={13} /> {standingText(s, words.nowMs)}</td>
              <td className={num}>{s.ratio === null ? '–' : formatRatio(s.ratio)}</td>
              <td>{phaseText(s, words.letters)}{s.subconductor ? `, subconductor ${s.subconductor}` : ''}</td>
              <td>{spanText(s.structure_back, s.structure_ahead) ?? 'no named structure'}</td>
            </tr>
          ))}
        </tbody>
      </DataTable>
      {model.beside.map(({ circuitId, circuit, splices }) => splices.length > 0 && (
        <section key={circuitId}>
          <h3>{circuit}, on the same structures</h3>
          <DataTable caption={`Splices of ${circuit} where it hangs beside ${strip.circuit}, in the order of ${strip.circuit}`}>
            <thead><tr><th scope="col" className={num}>Abreast of</th><th scope="col">Splice</th><th scope="col">Class</th><th scope="col" className={num}>Ratio measured</th><th scope="col">Phase</th></tr></thead>
            <tbody>
              {splices.map((s) => (
                <tr key={s.id}>
                  <td className={num}>{formatLineDistance(s.abreastM, words.system)}</td>
                  <th scope="row"><Button size="small" variant="quiet" onClick={() => onPick(s)}>{s.splice}</Button></th>
                  <td><ClassMark class={s.class} size={13} /> {standingText(s, words.nowMs)}</td>
                  <td className={num}>{s.ratio === null ? '–' : formatRatio(s.ratio)}</td>
                  <td>{phaseText(s, words.letters)}{s.subconductor ? `, subconductor ${s.subconductor}` : ''}</td>
                </tr>
              ))}
            </tbody>
          </DataTable>
        </section>
      ))}
      <h3>What was looked at</h3>
      <DataTable caption={`Spans of ${strip.circuit} and when their phases were looked at`}>
        <thead><tr><th scope="col">Span</th><th scope="col" className={num}>From</th>{['A', 'B', 'C'].map((p) => <th key={p} scope="col">Phase {words.letters[p] ?? p}</th>)}</tr></thead>
        <tbody>
          {strip.spans.map((span) => (
            <tr key={span.span_id}>
              <th scope="row">{spanText(span.structure_back, span.structure_ahead) ?? 'unnamed span'}{taps ? `, ${span.section}` : ''}</th>
              <td className={num}>{formatLineDistance(span.start_m, words.system)}</td>
              {['A', 'B', 'C'].map((p) => <td key={p}>{lookedText(lookAt(span, p), words.nowMs)}</td>)}
            </tr>
          ))}
        </tbody>
      </DataTable>
      <h3>Crossings</h3>
      {strip.crossings.length === 0 ? <p>None on record.</p> : (
        <ul>{strip.crossings.map((c) => <li key={c.id}>{formatLineDistance(c.line_distance_m, words.system)}: {[c.kind, c.name].filter(Boolean).join(', ')}</li>)}</ul>
      )}
      <h3>Planned work</h3>
      <p>{PLANNED.charAt(0).toUpperCase() + PLANNED.slice(1)}.</p>
    </div>
  )
}
