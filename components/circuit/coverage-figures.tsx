import { evidenceSpan, methodText } from '@/components/health/evidence-age'
import { shareOf } from '@/components/health/health-rows'
import { Share } from '@/components/health/share'
import css from '@/components/ui/sheet.module.css'
import type { CircuitHealth } from '@/lib/contract/contract'
import { formatNumber, formatPercent } from '@/lib/units/format'

/** What was looked at and what of it proves something: two shares, one below the other, so that nobody takes the one for the other. */
export function CoverageFigures({ health }: { health: CircuitHealth | null }) {
  if (!health) return <p className={css.note}>Not reckoned yet.</p>
  const { coverage: c } = health
  if (c.share === null) return <p className={css.note}>No span with named structures to count by.</p>
  const of = (n: number) => `${formatNumber(n, 0)} of ${formatNumber(c.span_phase_count, 0)} spans and phases`
  const current = c.conclusive_span_phases - c.conclusive_stale_span_phases
  const stale = c.conclusive_stale_span_phases
  const span = evidenceSpan(c) && <span className={css.under}>evidence of {evidenceSpan(c)}</span>
  const method = methodText(current, c, c.span_phase_count)
  const inVain = c.covered_span_phases - c.conclusive_span_phases
  return (
    <>
      <dl className={css.facts}>
        <dt>Conclusively</dt>
        <dd>
          <Share share={shareOf(current, c.span_phase_count)} older={c.conclusive_stale_share ?? 0} />{' '}
          <span className={css.under}>
            {of(current)}
            {stale > 0 && ', within the re-survey interval of their class'}
            {method && `, ${method}`}
          </span>
          {stale === 0 && span}
        </dd>
        {stale > 0 && (
          <>
            <dt>With older looks</dt>
            <dd>
              <Share share={c.conclusive_share} quiet /> <span className={css.under}>{of(c.conclusive_span_phases)}</span>
              {span}
            </dd>
          </>
        )}
        <dt>Looked at, whatever it showed</dt>
        <dd>
          <Share share={c.share} quiet /> <span className={css.under}>{of(c.covered_span_phases)}</span>
        </dd>
      </dl>
      {stale > 0 && c.conclusive_stale_share !== null && (
        <p className={css.boxed}>
          {formatPercent(c.conclusive_stale_share)} more ({of(stale)}) was looked at conclusively longer ago than the
          re-survey interval of its class: a splice there may have failed since.
        </p>
      )}
      {inVain > 0 && (
        <p className={css.note}>
          {formatNumber(inVain, 0)} of those {inVain === 1 ? 'proves' : 'prove'} nothing: a splice bad on both sides would not have shown
          at that load, in that weather, or with a side unread.
        </p>
      )}
    </>
  )
}
