import type { Metadata } from 'next'
import { Suspense } from 'react'
import { shownSettings } from '@/app/shown-settings'
import { FlightScreen } from '@/components/loading/flight-screen'
import { allScope } from '@/lib/store/all-scope'
import { currentPolicy } from '@/lib/store/policies'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Before a flight' }

/** The policy comes with the page; what would show is worked out in the browser. */
export default async function FlightPage() {
  const [policy, settings] = await Promise.all([currentPolicy(allScope()), shownSettings()])
  return (
    <Suspense>
      <FlightScreen policy={policy} mark={settings.information_mark} print={{ utility: settings.utility_name, askedAtMs: new Date().getTime() }} />
    </Suspense>
  )
}
