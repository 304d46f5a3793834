'use client'
import { IconButton } from './button'
import { useToast } from './toast'

/** Puts a text on the clipboard and says so. */
export function CopyText({ text, label }: { text: string; label: string }) {
  const toast = useToast()
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text)
      toast({ title: 'Copied', detail: text })
    } catch {
      toast({ title: 'The browser did not allow copying.', detail: `Select it by hand: ${text}`, tone: 'error' })
    }
  }
  return <IconButton icon="copy" label={label} size="small" className="no-print" onClick={() => void copy()} />
}
