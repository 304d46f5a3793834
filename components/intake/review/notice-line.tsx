'use client'
import { Button, IconButton } from '@/components/ui/button'
import { cx } from '@/components/ui/class-names'
import { Icon } from '@/components/ui/icons'
import type { Notice } from './use-decisions'
import css from './review.module.css'

/** What just happened, in the flow of the page. `undo` only where no other undo stands beside it. */
export function NoticeLine({ notice, undo, onDismiss }: { notice: Notice; undo: (() => void) | null; onDismiss(): void }) {
  return (
    <div className={cx(css.notice, notice.tone === 'error' && css.noticeError)} role={notice.tone === 'error' ? 'alert' : 'status'}>
      <Icon name={notice.tone === 'error' ? 'warning' : 'check'} />
      <span key={notice.key}>{notice.text}</span>
      {undo !== null && notice.canUndo && (
        <Button size="small" onClick={undo}>
          Undo
        </Button>
      )}
      <IconButton icon="close" label="Dismiss" size="small" onClick={onDismiss} />
    </div>
  )
}
