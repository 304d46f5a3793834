import type { ReadingJson } from '@/lib/contract/contract'

interface Placed {
  phase: string | null
  readings: readonly { placement: Pick<ReadingJson['placement'], 'reasons'> }[]
}

/** What of the place of its readings was worked out and not told: another circuit that a position leaves open, a phase that is its splice's alone. */
export function placeDoubts({ phase, readings }: Placed): { code: string; text: string }[] {
  const having = (code: string) => readings.flatMap(({ placement }) => placement.reasons.filter((reason) => reason.code === code))
  const of = (n: number) => (readings.length === 1 ? 'Its only reading' : `${n} of its ${readings.length} readings`)
  const byTrack = new Map<string, number>()
  for (const { text } of having('circuit-by-track')) byTrack.set(text, (byTrack.get(text) ?? 0) + 1)
  const unconfirmed = phase === null ? 0 : having('phase-not-confirmed').length
  return [
    ...[...byTrack].map(([text, n]) => ({ code: 'circuit-by-track', text: `${of(n)}: ${text}` })),
    ...unconfirmed === 0 ? [] : [{ code: 'phase-not-confirmed', text: `${of(unconfirmed)}: phase not confirmed. No phase was given, and ${phase} is that of the splice.` }],
  ]
}
