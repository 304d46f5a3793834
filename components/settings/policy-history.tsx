'use client'
import { Button } from '@/components/ui/button'
import { DataTable, num } from '@/components/ui/data-table'
import { asSentences } from '@/components/ui/fetch-json'
import { useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { ErrorState, Skeleton } from '@/components/ui/states'
import type { PolicyVersionJson } from '@/lib/contract/settings'
import { formatDateTime } from '@/lib/units/time'
import { changesBetween } from './policy-draft'
import { usePolicyHistory } from './use-policy'
import css from './policy.module.css'

/** Who set what, when and after which procedure. Older values can be taken up again. */
export function PolicyHistory({ inForce, onUse }: { inForce: number; onUse(version: PolicyVersionJson): void }) {
  const zone = useTimeZone()
  const [system] = useUnitSystem()
  const history = usePolicyHistory()
  const versions = history.data?.items ?? []
  return (
    <section className={css.history} aria-labelledby="history-title">
      <h2 id="history-title">Versions</h2>
      {history.isPending && <Skeleton height={40} />}
      {history.isError && (
        <ErrorState small {...asSentences(history.error)} action={<Button onClick={() => void history.refetch()}>Try again</Button>} />
      )}
      {versions.length > 0 && (
        <DataTable caption="Versions of the policy">
          <thead>
            <tr>
              <th scope="col" className={num}>
                No.
              </th>
              <th scope="col">When</th>
              <th scope="col">Who</th>
              <th scope="col">Procedure</th>
              <th scope="col">What changed</th>
              <th scope="col">
                <span className="visually-hidden">Actions</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {versions.map((v, n) => {
              const before = versions[n + 1]
              const changes = before ? changesBetween(before.values, v.values, system).filter((c) => c.path !== 'procedureNo') : []
              return (
                <tr key={v.version}>
                  <td className={num}>{v.version}</td>
                  <td className={css.nowrap}>{formatDateTime(Date.parse(v.created_at), zone)}</td>
                  <td>
                    {v.set_by ?? v.actor}
                    {v.set_by !== null && <div className={css.quiet}>sent by {v.actor}</div>}
                  </td>
                  <td>{v.procedure_no || 'none'}</td>
                  <td>
                    {changes.map((c) => (
                      <div key={c.path}>
                        {c.label}: {c.from} → {c.to}
                      </div>
                    ))}
                    {v.note && <div className={css.quiet}>{v.note}</div>}
                  </td>
                  <td>
                    {v.version === inForce ? (
                      <span className={css.nowrap}>in force</span>
                    ) : (
                      <Button size="small" variant="quiet" onClick={() => onUse(v)}>
                        Take these values
                      </Button>
                    )}
                  </td>
                </tr>
              )
            })}
          </tbody>
        </DataTable>
      )}
    </section>
  )
}
