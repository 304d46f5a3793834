import type { Metadata } from 'next'
import Link from 'next/link'
import { shownSettings } from '@/app/shown-settings'
import { Batches } from '@/components/health/batches'
import { healthRows, totalsOf } from '@/components/health/health-rows'
import { HealthTable } from '@/components/health/health-table'
import css from '@/components/health/health-table.module.css'
import { Button } from '@/components/ui/button'
import { PrintButton, PrintFoot, PrintHead } from '@/components/ui/print'
import { EmptyState } from '@/components/ui/states'
import { allScope } from '@/lib/store/all-scope'
import { listBatches } from '@/lib/store/batches'
import { listCircuits } from '@/lib/store/circuits'
import { listHealth } from '@/lib/store/health'
import { unsettledInAll } from '@/lib/store/unsettled'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Health' }

export default async function HealthPage() {
  const scope = allScope()
  const [circuits, health, batches, unsettled, settings] = await Promise.all([
    listCircuits(scope), listHealth(scope), listBatches(scope), unsettledInAll(scope), shownSettings(),
  ])
  const nowMs = new Date().getTime()
  const rows = healthRows(circuits, health)
  const { counts } = totalsOf(rows)
  return (
    <div className={css.page}>
      <PrintHead mark={settings.information_mark} />
      <div className={css.head}>
        <div>
          <h1>Circuit health</h1>
          <p>
            Worst first; a circuit of which nothing is known stands right after what is urgent. Overdue counts from the day of the finding. Conclusively: a splice bad on both sides would have shown, within
            the re-survey interval of its class; infrared only, one bad side may not have. Shares are of spans and phases, for a list of splices need not be whole.
          </p>
        </div>
        {circuits.length > 0 && (
          <div className={`${css.tools} no-print`}>
            <Button asChild size="small">
              <a href="/api/v1/circuits.csv" download>
                Save as CSV
              </a>
            </Button>
            <PrintButton />
          </div>
        )}
      </div>
      {circuits.length > 0 ? (
        <>
          <HealthTable rows={rows} unsettled={unsettled} nowMs={nowMs} />
          <Batches batches={batches} />
          <PrintFoot utility={settings.utility_name} askedAtMs={nowMs} pressing={{ critical: counts.critical + unsettled.critical, urgent: counts.urgent + unsettled.urgent }} />
        </>
      ) : (
        <EmptyState
          title="Import your lines first"
          action={
            <Button asChild variant="primary">
              <Link href="/intake">Import a file</Link>
            </Button>
          }>
          Health compares your circuits: splices per class, the worst one, how much was looked at and when. It needs your lines.
        </EmptyState>
      )}
    </div>
  )
}
