import type { Metadata } from 'next'
import Link from 'next/link'
import { shownSettings } from '@/app/shown-settings'
import { healthRows } from '@/components/health/health-rows'
import { HealthTable } from '@/components/health/health-table'
import css from '@/components/health/health-table.module.css'
import { Button } from '@/components/ui/button'
import { PrintButton, PrintFoot, PrintHead } from '@/components/ui/print'
import { EmptyState } from '@/components/ui/states'
import { allScope } from '@/lib/store/all-scope'
import { listCircuits } from '@/lib/store/circuits'
import { listHealth } from '@/lib/store/health'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Health' }

export default async function HealthPage() {
  const scope = allScope()
  const [circuits, health, settings] = await Promise.all([listCircuits(scope), listHealth(scope), shownSettings()])
  const nowMs = new Date().getTime()
  return (
    <div className={css.page}>
      <PrintHead mark={settings.information_mark} />
      <div className={css.head}>
        <div>
          <h1>Circuit health</h1>
          <p>
            The circuit with the most critical splices first, then urgent, then degraded. Looked at: spans and phases where anybody was.
            Conclusively: those where a failing splice would have shown; a flight at little load or in wind is not among them. Past
            re-survey: older than the interval of its class. Response times run from when a finding was first shown here; one whose reading
            lay longer than that before it was read in is counted apart.
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
          <HealthTable rows={healthRows(circuits, health)} nowMs={nowMs} />
          <PrintFoot utility={settings.utility_name} askedAtMs={nowMs} />
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
