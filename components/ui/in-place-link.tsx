'use client'
import Link from 'next/link'
import type { MouseEvent, ReactNode } from 'react'
import { unbroken } from './unbroken'

/** A link with an address of its own that a plain press follows in place where `onSelect` is given; a new tab still opens the page. */
export function InPlaceLink({ href, onSelect, children }: { href: string; onSelect?: () => void; children: ReactNode }) {
  const onClick = (e: MouseEvent) => {
    if (!onSelect || e.metaKey || e.ctrlKey || e.shiftKey) return
    e.preventDefault()
    onSelect()
  }
  return <Link href={href} onClick={onClick}>{typeof children === 'string' ? unbroken(children) : children}</Link>
}
