import { describe, expect, it } from 'vitest'
import { defaultPolicy, ownNumbersClass } from '@/lib/condition'
import { DRAKE, infrared, resistance, visual } from './evidence'

const own = (evidence: Parameters<typeof ownNumbersClass>[0], facts?: Parameters<typeof ownNumbersClass>[1]) =>
  ownNumbersClass(evidence, facts, defaultPolicy)

describe('one reading by its own numbers', () => {
  it('is urgent or critical without anybody knowing the splice', () => {
    expect(own(resistance({ sideAUohm: 10, sideBUohm: 53, conductorUohm: 12 })))
      .toMatchObject({ class: 'critical', urgent: true, side: 'B', flags: [] })
    expect(own(resistance({ sideAUohm: 45 }))).toMatchObject({ class: 'urgent', urgent: true, side: 'A' })
    expect(own(resistance({ sideAUohm: 32 }))).toMatchObject({ class: 'degraded', urgent: false })
  })

  it('needs the facts where it has no conductor reading of its own', () => {
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined })).class).toBe('unknown')
    expect(own(resistance({ sideAUohm: 70, conductorUohm: undefined }), DRAKE))
      .toMatchObject({ class: 'critical', flags: ['conductor-from-table'] })
  })

  it('is not silenced by too little current, but flagged', () => {
    const low = resistance({ sideAUohm: 90, testCurrent: 'live-ac', lineCurrentA: 5 })
    expect(own(low)).toMatchObject({ class: 'critical', urgent: true, flags: ['low-test-current'] })
  })

  it('does not age', () => {
    expect(own(resistance({ takenAtMs: 0 })).class).toBe('sound')
  })

  it('follows the edges of a hotter section', () => {
    expect(own(resistance({ sideAUohm: 28 }), { ...DRAKE, maxOperatingC: 100 })).toMatchObject({ class: 'urgent', urgent: true })
  })

  it('is refused where the fitting is not judged by a ratio', () => {
    expect(own(resistance({ sideAUohm: 90 }), { ...DRAKE, kind: 'shield-wire splice' }))
      .toMatchObject({ urgent: false, flags: ['not-assessed-by-ratio'] })
  })

  it('is refused where the numbers cannot be right', () => {
    expect(own(resistance({ sideAUohm: 15_000, sideBUohm: 16_000 })))
      .toMatchObject({ class: 'unknown', urgent: false, flags: ['implausible'] })
  })

  it('counts broken strands as urgent and nothing else that is seen', () => {
    expect(own(visual(['broken-strands']))).toMatchObject({ class: 'urgent', urgent: true })
    expect(own(visual(['bulging', 'rust-bleed']))).toMatchObject({ class: 'unknown', urgent: false })
  })

  it('reports infrared as hot and never as urgent: a loaded line is always warm', () => {
    expect(own(infrared({ spliceTempC: 120 }))).toMatchObject({ class: 'unknown', urgent: false, flags: ['infrared-hot'] })
  })
})
