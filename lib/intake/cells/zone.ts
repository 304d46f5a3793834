const QUARTER_MS = 900_000
const MAX_REMEMBERED = 20_000

/** How a wall clock became a moment. gap: clocks were put forward over it; overlap: it came twice, the earlier is taken. */
export interface ZonedMoment {
  atMs: number
  doubt: 'gap' | 'overlap' | null
}

/**
 * Wall clock of a zone to UTC. Offsets are remembered per quarter of an hour, where every zone's changes lie,
 * because asking the calendar costs more than reading a whole row.
 */
export class ZoneClock {
  private readonly formatter: Intl.DateTimeFormat
  private readonly offsets = new Map<number, number>()

  /** @throws RangeError for a zone that this runtime does not know */
  constructor(timeZone: string) {
    this.formatter = new Intl.DateTimeFormat('en-US', {
      timeZone, calendar: 'gregory', numberingSystem: 'latn', era: 'short', year: 'numeric', month: 'numeric', day: 'numeric',
      hour: 'numeric', minute: 'numeric', second: 'numeric', hourCycle: 'h23',
    })
  }

  /** @param wallMs the wall clock's reading as if it were UTC, milliseconds since 1970 */
  toUtc(wallMs: number): ZonedMoment {
    const before = this.offsetMs(wallMs - 86_400_000)
    const after = this.offsetMs(wallMs + 86_400_000)
    if (before === after && this.offsetMs(wallMs - before) === before) return { atMs: wallMs - before, doubt: null }
    const early = wallMs - before
    const late = wallMs - after
    const earlyHolds = this.offsetMs(early) === before
    const lateHolds = this.offsetMs(late) === after
    if (earlyHolds && lateHolds) return { atMs: Math.min(early, late), doubt: early === late ? null : 'overlap' }
    if (earlyHolds || lateHolds) return { atMs: earlyHolds ? early : late, doubt: null }
    return { atMs: early, doubt: 'gap' }
  }

  private offsetMs(atMs: number): number {
    const quarter = Math.floor(atMs / QUARTER_MS)
    const known = this.offsets.get(quarter)
    if (known !== undefined) return known
    if (this.offsets.size >= MAX_REMEMBERED) this.offsets.clear()
    const offset = this.askOffsetMs(quarter * QUARTER_MS)
    this.offsets.set(quarter, offset)
    return offset
  }

  private askOffsetMs(atMs: number): number {
    const part: Record<string, string> = {}
    for (const { type, value } of this.formatter.formatToParts(atMs)) part[type] = value
    const wall = Date.UTC(
      Number(part.year), Number(part.month) - 1, Number(part.day), Number(part.hour), Number(part.minute), Number(part.second)
    )
    return wall - atMs
  }
}
