'use client'
import type { ReactNode } from 'react'
import { Button } from '@/components/ui/button'
import { Icon } from '@/components/ui/icons'
import { useTimeZone } from '@/components/ui/preferences'
import type { ReviewItem } from '@/lib/contract/contract'
import { formatDateTime } from '@/lib/units/time'
import { Evidence } from './reading-facts'
import css from './panel.module.css'

const SAID = { rejected: 'Set aside', placed: 'Placed', review: 'In review' } as const

/** Only what a person decided can be taken back by a person. */
export const canTakeBack = ({ reading: { placement } }: ReviewItem): boolean => placement.state !== 'review' && placement.method === 'person'

/** A decision that stands, and the way back into review. */
export function SettledPanel({ item, map, notice, onTakeBack }: { item: ReviewItem; map: ReactNode; notice: ReactNode; onTakeBack(): void }) {
  const zone = useTimeZone()
  const { placement } = item.reading
  return (
    <div className={css.panel}>
      <div className={css.scroll}>
        {notice}
        <Evidence item={item} noteFirst />
        {map}
        <div className={css.foot}>
          <p className={css.note}>
            {SAID[placement.state]}
            {placement.circuit === null ? '' : ` on ${placement.circuit}`} by {placement.decided_by ?? 'the intake'},{' '}
            {formatDateTime(Date.parse(placement.decided_at), zone)}.
          </p>
          {canTakeBack(item) && (
            <div className={css.buttons}>
              <Button variant="primary" onClick={onTakeBack}>
                <Icon name="undo" />
                Take back into review
              </Button>
            </div>
          )}
        </div>
      </div>
    </div>
  )
}
