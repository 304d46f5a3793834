import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import { dehydrate, HydrationBoundary, QueryClient } from '@tanstack/react-query'
import { shownSettings } from '@/app/shown-settings'
import { ChangesScreen } from '@/components/operations/changes/changes-screen'
import { arrive, changesHref, parseVisit, sinceOf } from '@/components/operations/changes/visit'
import { VISIT_COOKIE } from '@/components/ui/cookies'
import { changesQuery } from '@/lib/contract/changes'
import { allScope } from '@/lib/store/all-scope'
import { storeState } from '@/lib/store/state'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = {
  title: 'What changed',
  description: 'What changed on the lines since the last visit or any day: classes with the reason, notices, conflicts, limits, repairs and readings.',
}

interface Props {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

/** An address without a moment, or with one that is none, becomes that of the last visit, so that whoever is sent it sees the same. */
export default async function ChangesPage({ searchParams }: Props) {
  const [asked, jar, state, settings] = await Promise.all([searchParams, cookies(), storeState(allScope()), shownSettings()])
  const nowMs = new Date().getTime()
  const visit = arrive(parseVisit(jar.get(VISIT_COOKIE)?.value), state.complete_to)
  const since = changesQuery.shape.since.safeParse(asked.since)
  const circuits = changesQuery.shape.circuit.safeParse(asked.circuit)
  const circuitIds = circuits.data?.length ? circuits.data : undefined
  if (!since.success) redirect(changesHref(sinceOf(visit, nowMs).at, circuitIds))
  const client = new QueryClient()
  client.setQueryData(['state'], state)
  return (
    <HydrationBoundary state={dehydrate(client)}>
      <ChangesScreen since={since.data} circuitIds={circuitIds} visit={visit} mark={settings.information_mark} print={{ utility: settings.utility_name, askedAtMs: nowMs }} />
    </HydrationBoundary>
  )
}
