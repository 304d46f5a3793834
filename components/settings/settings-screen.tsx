'use client'
import { parseAsStringLiteral, useQueryState } from 'nuqs'
import { Tabs } from '@/components/ui/tabs'
import { PolicyScreen } from './policy-screen'
import { UtilityScreen } from './utility-screen'
import css from './settings.module.css'

const PARTS = ['utility', 'policy'] as const

/** What the utility sets for everybody: how things are shown, and by which policy splices are classified. */
export function SettingsScreen() {
  const [part, setPart] = useQueryState('part', parseAsStringLiteral(PARTS).withDefault('utility').withOptions({ history: 'push' }))
  return (
    <div className={css.screen}>
      <h1>Settings</h1>
      <Tabs
        label="Settings"
        value={part}
        onValueChange={(v) => {
          const next = PARTS.find((p) => p === v)
          if (next) void setPart(next)
        }}
        items={[
          { value: 'utility', label: 'Utility', panel: <UtilityScreen /> },
          { value: 'policy', label: 'Condition policy', panel: <PolicyScreen /> },
        ]}
      />
    </div>
  )
}
