import type { Metadata } from 'next'
import { cookies } from 'next/headers'
import { OperationsScreen } from '@/components/operations/operations-screen'
import { parsePanels } from '@/components/operations/panels'
import { PANELS_COOKIE } from '@/components/ui/cookies'

export const dynamic = 'force-dynamic'
export const metadata: Metadata = { title: 'Operations' }

export default async function OperationsPage() {
  const panels = parsePanels((await cookies()).get(PANELS_COOKIE)?.value)
  return <OperationsScreen panels={panels} />
}
