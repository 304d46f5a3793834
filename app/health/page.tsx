import type { Metadata } from 'next'
import Link from 'next/link'
import { healthRows } from '@/components/health/health-rows'
import { HealthTable } from '@/components/health/health-table'
import css from '@/components/health/health-table.module.css'
import { Button } from '@/components/ui/button'
import { EmptyState } from '@/components/ui/states'
import { allScope } from '@/lib/store/all-scope'
import { listCircuits } from '@/lib/store/circuits'
import { listHealth } from '@/lib/store/health'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Health' }

export default async function HealthPage() {
  const scope = allScope()
  const [circuits, health] = await Promise.all([listCircuits(scope), listHealth(scope)])
  return (
    <div className={css.page}>
      <div className={css.head}>
        <h1>Circuit health</h1>
        <p>How every circuit stands, the worst first. Looked at: spans and phases with at least one inspection.</p>
      </div>
      {circuits.length > 0 ? (
        <HealthTable rows={healthRows(circuits, health)} />
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
