import { ClassChanges } from '@/components/splice/class-changes'
import type { ImportReport } from '@/lib/contract/contract'
import { count } from './words'
import css from './report.module.css'

/** What an import did, or would do, to the classes on show. */
export function ReportClasses({ report, dryRun }: { report: ImportReport; dryRun: boolean }) {
  const changes = report.class_changes
  if (!changes || changes.total === 0) return null
  const one = changes.total === 1
  const verb = dryRun ? (one ? 'splice would change its class' : 'splices would change their class') : one ? 'splice changed its class' : 'splices changed their class'
  return (
    <section className={css.classes} aria-labelledby={`classes-${report.import_id}`}>
      <h2 id={`classes-${report.import_id}`}>
        <b>{count(changes.total)}</b> {verb}
      </h2>
      {/* A splice that only the dry run found is there no longer. */}
      <ClassChanges changes={changes} words={{ from: 'Before', to: 'After' }} keeps={(splice) => !dryRun || splice.from !== 'unknown'} />
    </section>
  )
}
