const STRETCH_MS = 6 * 3_600_000
const MAX_REMEMBERED = 20_000

/** How a wall clock became a moment. gap: clocks were put forward over it; overlap: it came twice, the earlier is taken. */
export interface ZonedMoment {
  atMs: number
  doubt: 'gap' | 'overlap' | null
}

/**
 * Wall clock of a zone to UTC. Offsets are remembered per stretch of six hours in which none changes,
 * because asking the calendar costs more than reading a whole row.
 */
export class ZoneClock {
  private readonly formatter: Intl.DateTimeFormat
  /** Null: the offset changes within the stretch, so it is asked each time. */
  private readonly offsets = new Map<number, number | null>()

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
    const stretch = Math.floor(atMs / STRETCH_MS)
    const known = this.offsets.get(stretch)
    if (known !== undefined) return known ?? this.askOffsetMs(atMs)
    if (this.offsets.size >= MAX_REMEMBERED) this.offsets.clear()
    const first = this.askOffsetMs(stretch * STRETCH_MS)
    const steady = first === this.askOffsetMs((stretch + 1) * STRETCH_MS - 1000)
    this.offsets.set(stretch, steady ? first : null)
    return steady ? first : this.askOffsetMs(atMs)
  }

  private askOffsetMs(atMs: number): number {
    const part: Record<string, string> = {}
    for (const { type, value } of this.formatter.formatToParts(atMs)) part[type] = value
    const wall = Date.UTC(
      Number(part.year), Number(part.month) - 1, Number(part.day), Number(part.hour), Number(part.minute), Number(part.second)
    )
    return wall - Math.floor(atMs / 1000) * 1000
  }
}
