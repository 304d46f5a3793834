import type { Metadata } from 'next'
import { Suspense } from 'react'
import { shownSettings } from '@/app/shown-settings'
import { CalculatorScreen } from '@/components/calculator/calculator-screen'
import { allScope } from '@/lib/store/all-scope'
import { currentPolicy } from '@/lib/store/policies'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Calculator' }

/** Only the policy in force comes from the store; what is typed never goes back. */
export default async function CalculatorPage() {
  const [policy, settings] = await Promise.all([currentPolicy(allScope()), shownSettings()])
  return (
    <Suspense>
      <CalculatorScreen
        policy={policy}
        mark={settings.information_mark}
        print={{ utility: settings.utility_name, askedAtMs: new Date().getTime() }}
      />
    </Suspense>
  )
}
