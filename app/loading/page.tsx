import type { Metadata } from 'next'
import { Suspense } from 'react'
import { shownSettings } from '@/app/shown-settings'
import { LoadingScreen } from '@/components/loading/loading-screen'
import { allScope } from '@/lib/store/all-scope'
import { currentPolicy } from '@/lib/store/policies'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Loading' }

/** The policy comes with the page; splices are asked for by circuit, and everything else is reckoned in the browser. */
export default async function LoadingPage() {
  const [policy, settings] = await Promise.all([currentPolicy(allScope()), shownSettings()])
  return (
    <Suspense>
      <LoadingScreen policy={policy} mark={settings.information_mark} print={{ utility: settings.utility_name, askedAtMs: new Date().getTime() }} />
    </Suspense>
  )
}
