import Link from 'next/link'
import { ClassMark } from '@/components/map/class-mark'
import type { BatchStandingJson } from '@/lib/contract/batches'
import { formatNumber, formatPercent, formatRatio } from '@/lib/units/format'
import css from './batches.module.css'

/** Batches whose splices fail more than the others: what is wrong with one of them may be wrong with all. */
export function Batches({ batches }: { batches: readonly BatchStandingJson[] }) {
  if (batches.length === 0) return null
  const standing = batches.filter((batch) => batch.stands_out)
  return (
    <section className={css.batches} aria-labelledby="batches-title">
      <h2 id="batches-title">{standing.length === 0 ? 'No batch stands out' : standing.length === 1 ? 'One batch stands out' : `${standing.length} batches stand out`}</h2>
      <p className={css.lead}>
        {formatNumber(batches.length, 0)} {batches.length === 1 ? 'batch is' : 'batches are'} on record. A batch stands out where more of it is
        degraded or worse than could be by accident.
      </p>
      {standing.map((batch) => (
        <Batch key={batch.batch} batch={batch} />
      ))}
    </section>
  )
}

function Batch({ batch }: { batch: BatchStandingJson }) {
  const share = batch.failing_count / batch.measured_count
  const open = batch.splice_count - batch.measured_count
  return (
    <article className={css.batch}>
      <h3>Batch {batch.batch}</h3>
      <p>
        {formatNumber(batch.failing_count, 0)} of its {formatNumber(batch.measured_count, 0)} measured splices are degraded or worse. By accident
        that many would be so {oddsText(batch.by_accident)}.{' '}
        {open > 0 && (
          <b>
            {open === 1 ? 'One more of it in service has no class yet: measure it first.' : `${formatNumber(open, 0)} more of it in service have no class yet: measure these first.`}
          </b>
        )}
      </p>
      <dl className={css.bars}>
        <Bar name={`Batch ${batch.batch}`} share={share} />
        {batch.others_share !== null && <Bar name="All other splices" share={batch.others_share} />}
      </dl>
      <details className={css.which}>
        <summary>{open > 0 ? 'Which are degraded or worse, and which are not measured' : 'Which are degraded or worse'}</summary>
        <ul>
          {batch.splices.map((splice) => (
            <li key={splice.id}>
              <ClassMark class={splice.class} size={14} />
              <Link href={`/splices/${splice.id}`}>{splice.splice}</Link>
              <span>
                {splice.class}
                {splice.ratio === null ? '' : ` ${formatRatio(splice.ratio)}`}, {splice.circuit}
              </span>
            </li>
          ))}
        </ul>
      </details>
    </article>
  )
}

function Bar({ name, share }: { name: string; share: number }) {
  return (
    <>
      <dt>{name}</dt>
      <dd>
        <span className={css.bar} aria-hidden="true">
          <i style={{ width: `${share * 100}%` }} />
        </span>
        <span className={css.share}>{formatPercent(share)} degraded or worse</span>
      </dd>
    </>
  )
}

/** '1 time in 400'; whoever needs more digits has the API. */
function oddsText(chance: number): string {
  const once = 1 / chance
  return once > 1e6 ? 'less than once in a million' : `once in ${formatNumber(Number(once.toPrecision(1)), 0)} times`
}
