import Link from 'next/link'
import { Suspense, type ReactNode } from 'react'
import { IconButton } from '../button'
import { Popover } from '../popover'
import { cx } from '../class-names'
import { ConnectionNote } from '../connection-note'
import { BottomBar, Navigation } from './navigation'
import { SettingsLink } from './settings-link'
import { ThemeSwitch, UnitSwitch } from './theme-switch'
import css from './shell.module.css'

/** Header, main, and on a phone the bottom bar. */
export function Shell({ find, children }: { find: ReactNode; children: ReactNode }) {
  return (
    <>
      <a className={`${css.skip} no-print`} href="#main">
        Skip to content
      </a>
      <header className={cx(css.header, 'no-print')}>
        <Link href="/operations" className={css.brand}>
          <BrandMark />
          Spanledger
        </Link>
        <Navigation />
        <div className={css.tools}>
          <Suspense>{find}</Suspense>
          <div className={css.wide}>
            <UnitSwitch />
          </div>
          <div className={css.wide}>
            <ThemeSwitch />
          </div>
          <div className={css.menuOnly}>
            <Popover label="Units, theme and settings" align="end" trigger={<IconButton icon="more" label="Units, theme and settings" />}>
              <div className={css.menu}>
                <div>
                  <span>Units</span>
                  <UnitSwitch />
                </div>
                <div>
                  <span>Theme</span>
                  <ThemeSwitch />
                </div>
                <Link href="/settings">Settings</Link>
              </div>
            </Popover>
          </div>
          <SettingsLink />
        </div>
      </header>
      <main id="main" className={css.main} tabIndex={-1}>
        {children}
      </main>
      <ConnectionNote />
      <Suspense>
        <BottomBar />
      </Suspense>
    </>
  )
}

/** Two structures, a span, and the splice in it. */
function BrandMark() {
  return (
    <svg width="22" height="16" viewBox="0 0 22 16" fill="none" stroke="currentColor" strokeWidth="1.5" aria-hidden="true">
      <path d="M2 15V2M20 15V2" />
      <path d="M2 3.5Q11 11.5 20 3.5" />
      <rect x="8" y="5.6" width="6" height="3" rx="1" fill="currentColor" stroke="none" />
    </svg>
  )
}
