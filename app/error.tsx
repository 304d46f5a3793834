'use client'
import { Button } from '@/components/ui/button'
import { ErrorState } from '@/components/ui/states'

export default function ScreenError({ error, reset }: { error: Error & { digest?: string }; reset(): void }) {
  return (
    <ErrorState
      title="This page could not be drawn"
      where={error.digest ? `Number for the server's log: ${error.digest}` : undefined}
      remedy="What was stored stands. Try again; when it stays, tell whoever runs the server."
      action={
        <Button variant="primary" onClick={reset}>
          Try again
        </Button>
      }
    />
  )
}
