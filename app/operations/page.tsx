import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { dehydrate, HydrationBoundary, QueryClient } from '@tanstack/react-query'
import { shownSettings } from '@/app/shown-settings'
import { arrive, parseVisit } from '@/components/operations/changes/visit'
import { OperationsScreen } from '@/components/operations/operations-screen'
import { parsePanels } from '@/components/operations/panels'
import { PANELS_COOKIE, VISIT_COOKIE } from '@/components/ui/cookies'
import { allScope } from '@/lib/store/all-scope'
import { storeState } from '@/lib/store/state'
import { listUrgent } from '@/lib/store/urgent'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = {
  title: 'Operations',
  description: 'The lines on the map with the condition of their splices, the worst first: what cannot wait, where it is and whom to call.',
}

/**
 * The page brings the network's state along, so that the map starts without asking first, and what cannot wait: asked for afterwards it would come
 * late, and push down a map that is already drawn.
 */
export default async function OperationsPage() {
  const client = new QueryClient()
  const [jar, state, settings, urgent] = await Promise.all([cookies(), storeState(allScope()), shownSettings(), listUrgent(allScope())])
  client.setQueryData(['state'], state)
  client.setQueryData(['settings'], settings)
  client.setQueryData(['urgent', state.urgent_count], { items: urgent })
  return (
    <HydrationBoundary state={dehydrate(client)}>
      <OperationsScreen
        panels={parsePanels(jar.get(PANELS_COOKIE)?.value)}
        visit={arrive(parseVisit(jar.get(VISIT_COOKIE)?.value), state.complete_to)}
        askedAtMs={new Date().getTime()}
      />
    </HydrationBoundary>
  )
}
