'use client'
import { useState } from 'react'
import { useQuery } from '@tanstack/react-query'
import { DropdownMenu } from 'radix-ui'
import { takeMapPicture } from '@/components/map/map-picture'
import { Button } from '@/components/ui/button'
import { fetchJson } from '@/components/ui/fetch-json'
import { Icon } from '@/components/ui/icons'
import { usePhaseLetters, useTheme, useTimeZone, useUnitSystem } from '@/components/ui/preferences'
import { usePrintRecipient } from '@/components/ui/print-recipient'
import { useToast } from '@/components/ui/toast'
import { useLocalText } from '@/components/ui/use-local-text'
import { ADVICE_CAUTION } from '@/lib/condition/words'
import { spliceList, type CircuitSummary, type SpliceList } from '@/lib/contract/contract'
import { filterToQuery, type SpliceFilter } from '@/lib/contract/filter'
import { formatDateTime } from '@/lib/units/time'
import { useSettings } from '../queries'
import type { Box } from '../view-of'
import { composePicture } from './compose'
import { takeStripPicture } from './strip-image'
import { boxText, exportHref, FILES, filterText, leftOutText, splicesText } from './words'
import css from './export-menu.module.css'

interface Props {
  filter: SpliceFilter
  /** Of the filter: how many, and what it hides. */
  list: Pick<SpliceList, 'total' | 'counts' | 'hidden'> | undefined
  /** Of the map on screen; null before it stands. */
  box: Box | null
  circuits: CircuitSummary[]
  version: number | undefined
}

/** What the map shows of the filter, counted once it is asked for. */
const useInBox = (filter: SpliceFilter, box: Box | null, version: number | undefined, wanted: boolean) =>
  useQuery({
    queryKey: ['splices-in-box', filterToQuery(filter), box && boxText(box), version],
    queryFn: ({ signal }) => fetchJson(`/api/v1/splices?${[filterToQuery(filter), box && `bbox=${boxText(box)}`, 'limit=1'].filter(Boolean).join('&')}`, spliceList, { signal }),
    enabled: wanted && box !== null,
  })

/** Takes out what is on screen: the splices of the filter as a file of four kinds, or a picture of map and strip. */
export function ExportMenu({ filter, list, box, circuits, version }: Props) {
  const [open, setOpen] = useState(false)
  const [onlyMap, setOnlyMap] = useState(false)
  const inBox = useInBox(filter, box, version, open && onlyMap)
  const isBoxed = onlyMap && box !== null
  const asked = isBoxed ? inBox.data : list
  const recipient = usePrintRecipient().trim()
  const picture = usePicture({ filter, list, circuits })
  const count = asked?.total === undefined ? 'counting …' : splicesText(asked.total)
  return (
    <DropdownMenu.Root modal={false} open={open} onOpenChange={setOpen}>
      <DropdownMenu.Trigger asChild>
        <Button size="small">
          Export
          <Icon name="down" />
        </Button>
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={css.menu} align="end" sideOffset={4} collisionPadding={8} loop>
          <DropdownMenu.Label className={css.count}>
            <b>{count}</b> {isBoxed ? 'on the map and in the filter' : 'in the filter'}
            {asked && <span className={asked.hidden.critical + asked.hidden.urgent > 0 ? css.hidden : undefined}>{leftOutText(asked.hidden)}</span>}
          </DropdownMenu.Label>
          {box && (
            <DropdownMenu.CheckboxItem className={css.item} checked={onlyMap} onCheckedChange={setOnlyMap} onSelect={(e) => e.preventDefault()}>
              <span className={css.tick} aria-hidden="true">{onlyMap ? '☑' : '☐'}</span>
              Only what the map shows
            </DropdownMenu.CheckboxItem>
          )}
          <DropdownMenu.Separator className={css.rule} />
          {FILES.map(({ format, label, use }) => (
            <DropdownMenu.Item key={format} className={css.item} asChild>
              <a href={exportHref(format, filter, isBoxed ? box : null, recipient.slice(0, 200))} download>
                <b>{label}</b>
                <span>{use}, {count}</span>
              </a>
            </DropdownMenu.Item>
          ))}
          <DropdownMenu.Item className={css.item} onSelect={() => void picture()}>
            <b>PNG</b>
            <span>a picture of map and strip, for a message</span>
          </DropdownMenu.Item>
          <DropdownMenu.Label className={css.foot}>Each carries the information-handling mark, as of when it is and what is left out; {recipient === '' ? 'no recipient is named' : `recipient: ${recipient}`}.</DropdownMenu.Label>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  )
}

/** Makes the picture and hands it over as a file. */
function usePicture({ filter, list, circuits }: Pick<Props, 'filter' | 'list' | 'circuits'>): () => Promise<void> {
  const toast = useToast()
  const theme = useTheme()
  const timeZone = useTimeZone()
  const letters = usePhaseLetters()
  const [system] = useUnitSystem()
  const local = useLocalText()
  const settings = useSettings()
  return async () => {
    try {
      const nowMs = Date.now()
      const [map, strip] = await Promise.all([takeMapPicture(), takeStripPicture()])
      if (!map && !strip) {
        toast({ title: 'There is nothing to draw.', detail: 'This browser draws no map. Choose a circuit, and the picture holds its strip.', tone: 'error' })
        return
      }
      const canvas = composePicture({
        map, strip, theme, system, filter, counts: list?.counts ?? null, caution: local(ADVICE_CAUTION),
        mark: settings.data?.information_mark.trim() || 'No information-handling mark is set',
        title: ['Splices by condition', settings.data?.utility_name].filter(Boolean).join(', '),
        lines: [`As of ${formatDateTime(nowMs, timeZone)}. ${filterText(filter, circuits, letters)}. ${list ? `${leftOutText(list.hidden)}.` : ''}`],
      })
      const blob = await new Promise<Blob | null>((resolve) => { canvas.toBlob(resolve, 'image/png') })
      if (!blob) throw new Error('The browser made no picture.')
      keep(blob, `splices-${new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short' }).format(nowMs)}.png`)
      toast({ title: 'Picture made', detail: map && strip ? 'It holds the map and the strip.' : map ? 'It holds the map; no circuit is straightened.' : 'It holds the strip alone: this browser draws no map.' })
    } catch (e) {
      toast({ title: 'The picture could not be made.', detail: e instanceof Error ? e.message : 'Reload the page and try again.', tone: 'error' })
    }
  }
}

function keep(blob: Blob, fileName: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(blob)
  link.download = fileName
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}
