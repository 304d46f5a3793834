'use client'
import { Button } from './button'
import { useToast } from './toast'

/** Copies the address, in which the whole question stands. */
export function CopyLink({ detail }: { detail: string }) {
  const toast = useToast()
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(window.location.href)
      toast({ title: 'Link copied', detail })
    } catch {
      toast({ title: 'The browser did not allow copying.', detail: 'Copy the address from its address bar.', tone: 'error' })
    }
  }
  return (
    <Button size="small" onClick={() => void copy()}>
      Copy link
    </Button>
  )
}
