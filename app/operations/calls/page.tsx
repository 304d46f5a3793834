import type { Metadata } from 'next'
import { Suspense } from 'react'
import { shownSettings } from '@/app/shown-settings'
import { CallsScreen } from '@/components/calls/calls-screen'
import { PrintFoot, PrintHead } from '@/components/ui/print'
import { allScope } from '@/lib/store/all-scope'
import { storeState } from '@/lib/store/state'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Calls' }

export default async function CallsPage() {
  const [settings, { counts }] = await Promise.all([shownSettings(), storeState(allScope())])
  const askedAtMs = new Date().getTime()
  return (
    <>
      <PrintHead mark={settings.information_mark} />
      <Suspense>
        <CallsScreen askedAtMs={askedAtMs} />
      </Suspense>
      <PrintFoot utility={settings.utility_name} askedAtMs={askedAtMs} pressing={{ critical: counts.critical, urgent: counts.urgent }} />
    </>
  )
}
