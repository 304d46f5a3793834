import { describe, expect, it } from 'vitest'
import { defaultPolicy, ownNumbersClass } from '@/lib/condition'
import { actionCodes, judge, NOW_MS, reasonCodes, reasonOf, resistance, YEAR_MS } from './evidence'

describe('repeats', () => {
  const three = (values: number[]) => values.map((sideAUohm, i) => resistance({ repeatNo: i + 1, sideAUohm,
    takenAtMs: NOW_MS + i * 60_000 }))

  // Common practice, no source: gain and zero of one meter are the same in each of its readings.
  it('give their mean, and leave it the error of the instrument', () => {
    const one = judge([resistance({ sideAUohm: 15 })]).sides[0]
    const side = judge(three([14.9, 15, 15.1])).sides[0]
    expect(side).toMatchObject({ repeats: 3 })
    expect(side?.sideUohm).toBeCloseTo(15, 12)
    expect(side?.uSideUohm).toBeCloseTo(one?.uSideUohm ?? 0, 12)
  })

  it('that read alike make no class milder than one of them', () => {
    for (let sideAUohm = 10; sideAUohm < 90; sideAUohm += 0.5) {
      const once = judge([resistance({ sideAUohm })])
      const thrice = judge(three([sideAUohm, sideAUohm, sideAUohm]))
      expect([sideAUohm, thrice.class, thrice.sides[0]?.uSideUohm]).toEqual([sideAUohm, once.class, once.sides[0]?.uSideUohm])
    }
  })

  it('with more spread than the instrument take the spread', () => {
    const side = judge(three([12, 15, 18])).sides[0]
    expect(side?.uSideUohm).toBeCloseTo(3 / Math.sqrt(3), 12)
  })

  it('narrow nothing where the policy says so', () => {
    const policy = { ...defaultPolicy, repeats: { ...defaultPolicy.repeats, narrow: false } }
    const one = judge([resistance({ sideAUohm: 15 })]).sides[0]
    expect(judge(three([15, 15, 15]), {}, policy).sides[0]?.uSideUohm).toBeCloseTo(one?.uSideUohm ?? 0, 12)
  })

  it('may stand in rows of their own for each side and the conductor', () => {
    const rows = [
      resistance({ sideBUohm: undefined, conductorUohm: undefined }), resistance({ sideAUohm: undefined, conductorUohm: undefined }),
      resistance({ sideAUohm: undefined, sideBUohm: undefined }),
    ]
    const assessment = judge(rows)
    expect(assessment.sides).toHaveLength(2)
    expect(assessment.flags).toEqual([])
  })

  it('over another electrode span are not averaged in', () => {
    const rows = [resistance({ sideAUohm: 25, electrodeSpanM: 0.5, takenAtMs: NOW_MS - 60_000 }), resistance({ sideAUohm: 15,
      conductorUohm: 21.5 })]
    const assessment = judge(rows)
    expect(assessment.sides[0]).toMatchObject({ sideUohm: 15, repeats: 1, electrodeSpanM: 0.3048 })
    expect(reasonCodes(assessment)).toContain('side-span-differs')
  })
})

describe('several visits', () => {
  it('the newest is the evidence, older ones are history', () => {
    const assessment = judge([resistance({ takenAtMs: NOW_MS - 3 * YEAR_MS, sideAUohm: 10 }), resistance({ sideAUohm: 24, survey: 'S2' })])
    expect(assessment.sides[0]).toMatchObject({ sideUohm: 24, repeats: 1 })
    expect(assessment.visits).toHaveLength(2)
    expect(assessment.visits[0]?.takenAtMs).toBe(NOW_MS - 3 * YEAR_MS)
  })

  it('a run of readings over days is no single visit', () => {
    const hourly = Array.from({ length: 30 }, (_, i) => resistance({ takenAtMs: NOW_MS - i * 4 * 3_600_000 }))
    expect(judge(hourly).sides[0]?.repeats).toBe(4)
  })

  it('a fall without a repair is a fault, not a recovery: flagged, low confidence, repeat', () => {
    const assessment = judge([resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 45 }), resistance({ sideAUohm: 15, survey: 'S2' })])
    expect(assessment.flags).toEqual(['conflict', 'ratio-fell'])
    expect(assessment.confidence).toBe('low')
    expect(reasonOf(assessment, 'ratio-fell')?.values.from).toBeCloseTo(45 / 21.5, 12)
    expect(actionCodes(assessment)).toContain('repeat-reading')
  })

  it('a rise is growth and no conflict', () => {
    expect(judge([resistance({ takenAtMs: NOW_MS - YEAR_MS }), resistance({ sideAUohm: 45, survey: 'S2' })]).flags).toEqual([])
  })

  it('a jump within weeks keeps its class and asks whether it is this splice', () => {
    const days = (n: number) => NOW_MS - n * 86_400_000
    const jumped = judge([resistance({ takenAtMs: days(59), sideAUohm: 13 }), resistance({ sideAUohm: 65, survey: 'S2' })])
    expect(jumped.class).toBe('critical')
    expect(jumped.flags).toContain('ratio-jumped')
    expect(reasonOf(jumped, 'ratio-jumped')?.values).toMatchObject({ times: 5, days: 59 })
    expect(actionCodes(jumped)).toContain('repeat-reading')
    expect(judge([resistance({ takenAtMs: days(59), sideAUohm: 13 }), resistance({ sideAUohm: 13.2, survey: 'S2' })]).flags).not.toContain('ratio-jumped')
  })

  it('a fall is compared with the worse side where nobody declared the sides', () => {
    const before = resistance({ takenAtMs: NOW_MS - YEAR_MS, sideAUohm: 45, sideBUohm: 15, sidesDeclared: false })
    const swapped = [
      before,
      resistance({ sideAUohm: 15, sideBUohm: 45, survey: 'S2', sidesDeclared: false }),
    ]
    const assessment = judge(swapped)
    expect(assessment).toMatchObject({ class: 'urgent', governingSide: 'B' })
    expect(assessment.flags).toEqual(['sides-undeclared'])
    expect(reasonCodes(assessment)).not.toContain('ratio-fell')
    const fallen = judge([before, resistance({ survey: 'S2', sidesDeclared: false })])
    expect(fallen.flags).toContain('ratio-fell')
    expect(fallen.reasons.filter(({ code }) => code === 'ratio-fell')).toHaveLength(1)
  })
})

describe('repeats of one visit', () => {
  const worst = resistance({ readingId: 1, sideAUohm: 64.5, takenAtMs: NOW_MS - 3_600_000 })
  const good = (n: number) => resistance({ readingId: n, sideAUohm: 13.6, takenAtMs: NOW_MS - 600_000 + n })

  it('that contradict each other are not averaged: the worse stands, however many good ones follow it', () => {
    for (const count of [1, 2, 4, 9]) {
      const assessment = judge([worst, ...Array.from({ length: count }, (_, i) => good(2 + i))])
      expect(assessment).toMatchObject({ class: 'critical', flags: ['conflict'], confidence: 'low' })
      expect(assessment.sides[0]).toMatchObject({ sideUohm: 64.5, repeats: 1 })
      expect(reasonOf(assessment, 'repeats-disagree')?.values).toMatchObject({ side: 'A', sideUohm: 64.5, againstUohm: 13.6 })
      expect(actionCodes(assessment)).toContain('repeat-reading')
    }
  })

  it('say the same in whichever order they were taken', () => {
    const before = judge([worst, good(2), good(3)])
    const after = judge([good(2), good(3), { ...worst, takenAtMs: NOW_MS }])
    expect(after.class).toBe(before.class)
    expect(after.sides[0]?.ratio).toBe(before.sides[0]?.ratio)
  })

  it('that electrodes set anew explain are averaged, and a second bad one counts with the first', () => {
    expect(judge([resistance({ sideAUohm: 20 }), resistance({ sideAUohm: 22 })]).sides[0]).toMatchObject({ sideUohm: 21, repeats: 2 })
    const twice = judge([worst, { ...worst, readingId: 9, sideAUohm: 62.5, takenAtMs: NOW_MS - 1_800_000 }, good(2)])
    expect(twice.sides[0]).toMatchObject({ sideUohm: 63.5, repeats: 2 })
  })
})

describe('two instruments in one session', () => {
  it('are not averaged: the worse stands, and a disagreement is a conflict', () => {
    const assessment = judge([resistance({ instrument: 'I-1', sideAUohm: 15 }), resistance({ instrument: 'I-2', sideAUohm: 45 })])
    expect(assessment).toMatchObject({ class: 'urgent', flags: ['conflict'], confidence: 'low' })
    expect(assessment.sides[0]).toMatchObject({ sideUohm: 45, repeats: 1 })
    expect(reasonCodes(assessment)).toContain('instruments-disagree')
  })

  it('that agree raise no flag', () => {
    expect(judge([resistance({ instrument: 'I-1' }), resistance({ instrument: 'I-2', sideAUohm: 15.5 })]).flags).toEqual([])
  })

  it('a blank instrument belongs to the only one named', () => {
    expect(judge([resistance({ instrument: 'I-1' }), resistance()]).sides[0]?.repeats).toBe(2)
  })
})

describe('live and dead', () => {
  it('are never mixed in one ratio', () => {
    const assessment = judge([resistance({ testCurrent: 'live-ac', lineCurrentA: 300 }), resistance({ testCurrent: 'dead-dc',
      sideAUohm: 16 })])
    expect(assessment.flags).toEqual(['ac-dc-mixed'])
    expect(assessment.sides[0]?.repeats).toBe(1)
  })

  it('the kind with its own conductor reading goes before the one that needs the table', () => {
    const rows = [resistance({ testCurrent: 'live-ac', sideAUohm: 17 }), resistance({ testCurrent: 'dead-dc', sideAUohm: 18,
      conductorUohm: undefined })]
    expect(judge(rows).sides[0]).toMatchObject({ sideUohm: 17, reference: 'measured' })
  })
})

describe('too little test current', () => {
  it('proves nothing and names instrument and need', () => {
    const assessment = judge([resistance({ testCurrent: 'live-ac', lineCurrentA: 12, instrument: 'I-1' })])
    expect(assessment).toMatchObject({ class: 'unknown', flags: ['low-test-current'] })
    expect(reasonOf(assessment, 'low-test-current')?.values).toEqual({ currentA: 12, minimumA: 20, instrument: 'I-1' })
    expect(actionCodes(assessment)).toEqual(['raise-test-current'])
  })

  it('is judged per subconductor', () => {
    expect(judge([resistance({ testCurrent: 'live-ac', lineCurrentA: 50 })], { subconductors: 4 }).flags).toEqual(['low-test-current'])
  })

  it('is judged by the named instrument, in any case of letters', () => {
    const policy = { ...defaultPolicy, instrument: { ...defaultPolicy.instrument, byName: [{ instrument: 'Clamp 7',
      minimumCurrentA: 100 }] } }
    const low = resistance({ testCurrent: 'live-ac', lineCurrentA: 80, instrument: 'clamp 7' })
    expect(judge([low], {}, policy).class).toBe('unknown')
    expect(judge([low]).class).toBe('sound')
  })

  it('does not concern a dead reading', () => {
    expect(judge([resistance({ testCurrent: 'dead-dc', lineCurrentA: 0 })]).class).toBe('sound')
  })
})

describe('values outside their range are refused by name', () => {
  it.each([
    ['zero side', { sideAUohm: 0 }, 'reading-out-of-range'], ['negative conductor', { conductorUohm: -12 }, 'reading-out-of-range'],
    ['no number', { sideAUohm: Number.NaN }, 'reading-out-of-range'],
    ['both electrodes on the barrel', { sideAUohm: 2 }, 'implausible-side'],
  ])('%s', (_name, fields, code) => {
    expect(reasonCodes(judge([resistance(fields)]))).toContain(code)
  })

  it('a side far over its conductor is never hidden by a good other side: an open interface reads so too', () => {
    for (const sideBUohm of [12, 15_000, undefined]) {
      const assessment = judge([resistance({ sideAUohm: 15_000, sideBUohm })])
      expect(assessment).toMatchObject({ class: 'critical', confidence: 'low' })
      expect(assessment.flags).toEqual(expect.arrayContaining(['implausible', 'provisional']))
      expect(reasonCodes(assessment)).toContain('ratio-beyond')
      expect(assessment.nextActions.map(({ code }) => code)).toContain('repeat-reading')
    }
    expect(ownNumbersClass(resistance({ sideAUohm: 15_000 }), undefined, defaultPolicy)).toMatchObject({ class: 'critical', urgent: true, side: 'A' })
  })

  it('an electrode span that cannot be right counts as not known', () => {
    const assessment = judge([resistance({ electrodeSpanM: 30 })])
    expect(assessment.flags).toEqual(['span-unknown'])
    expect(reasonOf(assessment, 'span-unknown')?.values.spanM).toBe(30)
  })

  it('a splice with refused readings only is unknown', () => {
    expect(judge([resistance({ sideAUohm: 0, sideBUohm: -1 })])).toMatchObject({ class: 'unknown', confidence: 'low' })
  })
})
