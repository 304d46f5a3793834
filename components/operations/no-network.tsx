import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { EmptyState, ErrorState } from '@/components/ui/states'
import css from './screen.module.css'

/** Before the first import. */
export function NoNetwork() {
  const first = (
    <Button asChild variant="primary">
      <Link href="/intake">Import a file</Link>
    </Button>
  )
  return (
    <div className={css.empty}>
      <EmptyState title="Import your lines first" action={first}>
        Operations shows every splice on the map with its condition, worst first. It needs your lines: a GeoJSON of the circuits, or the
        structures as CSV. Splices and readings then find their place on them.
      </EmptyState>
    </div>
  )
}

/** The state of the network did not come, so nothing else can. */
export function NoState({ error, onRetry }: { error: unknown; onRetry(): void }) {
  const again = (
    <Button variant="primary" onClick={onRetry}>
      Try again
    </Button>
  )
  return (
    <div className={css.empty}>
      <ErrorState {...asSentences(error)} action={again} />
    </div>
  )
}
