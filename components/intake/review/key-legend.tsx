'use client'
import { IconButton } from '@/components/ui/button'
import { useUnitSystem } from '@/components/ui/preferences'
import { legendOf } from './keys'
import type { QueueState } from './use-queue'
import css from './review.module.css'

export function KeyLegend({ state, onClose }: { state: QueueState; onClose(): void }) {
  const [system] = useUnitSystem()
  return (
    <aside className={css.legend} aria-label="Keys">
      <header>
        <h2>Keys</h2>
        <IconButton icon="close" label="Hide the keys" size="small" onClick={onClose} />
      </header>
      <dl>
        {legendOf(system, state).map((l) => (
          <div key={l.does}>
            <dt>
              {l.keys.map((k) => (
                <kbd key={k}>{k}</kbd>
              ))}
            </dt>
            <dd>{l.does}</dd>
          </div>
        ))}
      </dl>
    </aside>
  )
}
