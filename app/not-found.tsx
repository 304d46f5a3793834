import type { Metadata } from 'next'
import Link from 'next/link'
import { Button } from '@/components/ui/button'
import { EmptyState } from '@/components/ui/states'

export const metadata: Metadata = { title: 'Nothing at this address' }

export default function NotFound() {
  return (
    <>
      <h1 className="visually-hidden">Nothing at this address</h1>
      <EmptyState title="Nothing is kept at this address" action={<Button asChild><Link href="/operations">Open Operations</Link></Button>}>
        The splice or circuit may have been withdrawn with its import, or the address was cut short. Find it by its name instead.
      </EmptyState>
    </>
  )
}
