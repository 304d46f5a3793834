'use client'
import Link from 'next/link'
import { usePathname } from 'next/navigation'
import type { ReactNode } from 'react'
import calculator from '@/components/calculator/calculator.module.css'
import { CopyLink } from '@/components/ui/copy-link'
import { PrintButton } from '@/components/ui/print'
import css from './loading.module.css'

const PLACES = [{ href: '/loading', label: 'Loading' }, { href: '/loading/flight', label: 'Before a flight' }]

/** The two questions about a load, and what is done with an answer. */
export function LoadingHead({ title, children, tools }: { title: string; children: ReactNode; tools?: ReactNode }) {
  const path = usePathname()
  return (
    <>
      <nav className={`${css.places} no-print`} aria-label="Loading">
        {PLACES.map(({ href, label }) => (
          <Link key={href} href={href} aria-current={path === href ? 'page' : undefined}>
            {label}
          </Link>
        ))}
      </nav>
      <div className={calculator.head}>
        <div>
          <h1>{title}</h1>
          <p className="no-print">{children}</p>
        </div>
        <div className={`${calculator.tools} no-print`}>
          {tools}
          <CopyLink detail="Whoever opens it sees this question with the data of that day." />
          <PrintButton />
        </div>
      </div>
    </>
  )
}
