import Link from 'next/link'
import { Button } from './button'
import { PrintButton } from './print'
import css from './sheet.module.css'

/** What can be done with a sheet that has a page of its own; not on paper. */
export function SheetTools({ onMap }: { onMap: URLSearchParams }) {
  return (
    <div className={`${css.row} no-print`}>
      <Button asChild size="small">
        <Link href={`/operations?${onMap}`}>Show on the map</Link>
      </Button>
      <PrintButton />
    </div>
  )
}
