import '@fontsource-variable/public-sans/index.css'
import '@fontsource/noto-sans/greek-400.css'
import './globals.css'
import type { Metadata, Viewport } from 'next'
import { cookies } from 'next/headers'
import type { ReactNode } from 'react'
import { FindField } from '@/components/operations/find-field'
import { asThemeChoice, asUnitSystem, THEME_COOKIE, UNITS_COOKIE } from '@/components/ui/cookies'
import { PreferencesProvider } from '@/components/ui/preferences'
import { Providers } from '@/components/ui/providers'
import { Shell } from '@/components/ui/shell/shell'
import { shownSettings } from './shown-settings'

export const metadata: Metadata = {
  title: { default: 'Spanledger', template: '%s · Spanledger' },
  description: 'Condition of compression splices on overhead lines, on one map.',
}
export const viewport: Viewport = {
  themeColor: [{ media: '(prefers-color-scheme: light)', color: '#ffffff' }, { media: '(prefers-color-scheme: dark)', color: '#191c1f' }],
}

export default async function RootLayout({ children }: { children: ReactNode }) {
  const jar = await cookies()
  const settings = await shownSettings()
  const theme = asThemeChoice(jar.get(THEME_COOKIE)?.value)
  return (
    <html lang="en" data-theme={theme}>
      <body>
        <PreferencesProvider themeChoice={theme} unitSystem={asUnitSystem(jar.get(UNITS_COOKIE)?.value) ?? settings.unit_system}
          timeZone={settings.time_zone} phaseLetters={settings.phase_letters}>
          <Providers><Shell find={<FindField />}>{children}</Shell></Providers>
        </PreferencesProvider>
      </body>
    </html>
  )
}
