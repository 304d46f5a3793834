import type { Metadata } from 'next'
import { Suspense } from 'react'
import { ReviewScreen } from '@/components/intake/review/review-screen'

export const metadata: Metadata = { title: 'Review queue' }

export default function ReviewPage() {
  return (
    <Suspense>
      <ReviewScreen />
    </Suspense>
  )
}
