'use client'
import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { Button } from '../button'
import { Icon } from '../icons'
import css from './shell.module.css'

export function SettingsLink() {
  const current = usePathname().startsWith('/settings')
  return (
    <div className={css.wide}>
      <Button asChild variant="quiet">
        <Link href="/settings" aria-current={current ? 'page' : undefined}>
          <Icon name="settings" />
          Settings
        </Link>
      </Button>
    </div>
  )
}
