'use client'
import Link from 'next/link'
import { usePathname, useSearchParams } from 'next/navigation'
import { Icon, type IconName } from '../icons'
import { useNetworkState } from '../network-state'
import css from './shell.module.css'

const PLACES = [
  { href: '/operations', label: 'Operations', under: ['/operations', '/splices', '/circuits'] },
  { href: '/health', label: 'Health', under: ['/health'] },
  { href: '/loading', label: 'Loading', under: ['/loading'] },
  { href: '/intake', label: 'Intake', under: ['/intake'] },
  { href: '/calculator', label: 'Calculator', under: ['/calculator'] },
]
const isUnder = (path: string, under: string[]) => under.some((u) => path === u || path.startsWith(`${u}/`))

export function Navigation() {
  const path = usePathname()
  const review = useNetworkState().data?.review_count ?? 0
  return (
    <nav className={css.nav} aria-label="Main">
      {PLACES.map((p) => (
        <Link key={p.href} href={p.href} aria-current={isUnder(path, p.under) ? 'page' : undefined}>
          {p.label}
          {p.href === '/intake' && review > 0 && (
            <span className={css.badge}>{review}<span className="visually-hidden"> readings for review</span></span>
          )}
        </Link>
      ))}
    </nav>
  )
}

/** Phone: one place at a time; Operations is three of them, the map, the list and the strip. */
export function BottomBar() {
  const path = usePathname()
  const params = useSearchParams()
  const view = params.get('view')
  const onOperations = isUnder(path, ['/operations'])
  const operations = (to: 'map' | 'list' | 'strip') => {
    const kept = new URLSearchParams(onOperations ? params : undefined)
    // The strip is of the circuit of what is selected.
    if (to !== 'strip') kept.delete('sel')
    if (to !== 'map') kept.set('view', to)
    else kept.delete('view')
    return kept.size > 0 ? `/operations?${kept}` : '/operations'
  }
  const items: { href: string; label: string; icon: IconName; current: boolean }[] = [
    { href: operations('map'), label: 'Map', icon: 'map', current: (onOperations && view !== 'list' && view !== 'strip') || isUnder(path, ['/splices', '/circuits']) },
    { href: operations('list'), label: 'List', icon: 'list', current: onOperations && view === 'list' },
    { href: operations('strip'), label: 'Strip', icon: 'strip', current: onOperations && view === 'strip' },
    { href: '/health', label: 'Health', icon: 'health', current: isUnder(path, ['/health']) },
    { href: '/loading', label: 'Loading', icon: 'loading', current: isUnder(path, ['/loading']) },
    { href: '/intake', label: 'Intake', icon: 'intake', current: isUnder(path, ['/intake']) },
    { href: '/calculator', label: 'Calculator', icon: 'calculator', current: isUnder(path, ['/calculator']) },
  ]
  return (
    <nav className={`${css.bottom} no-print`} aria-label="Main, phone">
      {items.map((i) => (
        <Link key={i.label} href={i.href} aria-current={i.current ? 'page' : undefined}><Icon name={i.icon} />{i.label}</Link>
      ))}
    </nav>
  )
}
