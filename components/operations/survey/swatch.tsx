import css from './survey.module.css'

export type SwatchKind = 'seen' | 'patrol' | 'part' | 'elsewhen' | 'never' | 'track'

/** How the map draws a line of the survey layer. */
export function Swatch({ kind, step = 0 }: { kind: SwatchKind; step?: number }) {
  const colour = `var(--survey-${step})`
  return (
    <svg width="26" height="12" aria-hidden="true" className={css.swatch}>
      {kind === 'seen' && <line x1="1" x2="25" y1="6" y2="6" stroke={colour} strokeWidth="5" />}
      {kind === 'patrol' && <line x1="1" x2="25" y1="6" y2="6" stroke={colour} strokeWidth="5" strokeDasharray="8 4" />}
      {(kind === 'never' || kind === 'part') && <rect x="0.75" y="3" width="24.5" height="6" className={css.hollow} />}
      {kind === 'part' && <line x1="2" x2="24" y1="6" y2="6" stroke={colour} strokeWidth="2" />}
      {kind === 'elsewhen' && <line x1="1" x2="25" y1="6" y2="6" className={css.thin} />}
      {kind === 'track' && <><line x1="1" x2="25" y1="6" y2="6" className={css.way} /><path d="M10 2.5L14 6L10 9.5" className={css.way} /></>}
    </svg>
  )
}
