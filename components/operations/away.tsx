import { Button, IconButton } from '@/components/ui/button'
import css from './screen.module.css'

interface AwayProps {
  name: string | null
  /** Null where what is selected can be seen. */
  onShow: (() => void) | null
  /** Null where the sheet is open, or beside the map. */
  onSheet: (() => void) | null
  onClear(): void
}

/** What is selected but not to be seen: the map stands where its address says, or the sheet has made room for it. */
export function Away({ name, onShow, onSheet, onClear }: AwayProps) {
  if (!onShow && !onSheet) return null
  return (
    <div className={css.away} role="status">
      <span>
        <b>{name ?? 'What is selected'}</b>
        {onShow ? ' is out of view' : ''}
      </span>
      {onShow && <Button size="small" onClick={onShow}>Show on map</Button>}
      {onSheet && <Button size="small" onClick={onSheet}>Show the sheet</Button>}
      {onSheet && <IconButton icon="close" size="small" label="Select nothing" onClick={onClear} />}
    </div>
  )
}
