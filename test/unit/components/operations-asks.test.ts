import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { tripBody } from '@/components/circuit/note-if-it-trips'
import { readAssessment } from '@/components/splice/assessment'
import { otherText, placedText } from '@/components/splice/placements'
import { geoUri, spokenText } from '@/components/splice/position'
import { Remarks } from '@/components/splice/remarks'
import { SpliceSheet } from '@/components/splice/splice-sheet'
import { calledLines, isolationText, supplyText, timesText } from '@/components/splice/trip-words'
import { willItDrop } from '@/components/splice/will-it-drop'
import { ifItTripsBody } from '@/lib/contract/if-it-trips'
import type { SpliceDetail } from '@/lib/contract/contract'
import { assessment, detail, reading, trip } from '@/test/fixtures/components/samples'

const NOW_MS = Date.parse('2026-11-24T12:00:00Z')
const plain = (markup: string) => markup.replace(/<[^>]+>/g, ' ').replace(/&#x27;/g, '\'').replace(/\s+/g, ' ')
const sheet = (of: SpliceDetail) => plain(renderToStaticMarkup(createElement(SpliceSheet, {
  detail: of, system: 'metric', timeZone: 'UTC', letters: { A: 'A', B: 'B', C: 'C' }, nowMs: NOW_MS,
})))
const drop = (of: SpliceDetail) => willItDrop(of, readAssessment(of.assessment), 'metric', 'UTC', NOW_MS)

describe('what operations asks', () => {
  it('is answered in its order: drop, carry, flow, supply, isolation, calls, and then what is done if it trips', () => {
    const text = sheet(detail())
    const asked = ['Will it drop?', 'What it may carry', 'What flows now, at peak, after a contingency', 'Who loses supply', 'What isolates it', 'Who is called', 'If it trips']
    const at = asked.map((question) => text.indexOf(` ${question} `))
    expect(at.every((place) => place > 0)).toBe(true)
    expect(at).toEqual(at.toSorted((a, b) => a - b))
  })

  it('gives no current of a splice of which nothing conclusive was read', () => {
    expect(sheet(detail({ class: 'unknown', measured_class: 'unknown', ratio: null }))).toContain('What it may carry Not known: nothing conclusive was read of it. Ask for a reading.')
  })

  it('says whom to ask for each thing that nobody knows', () => {
    const text = sheet(detail())
    for (const asks of [
      'Present flow not known: ask the control room.', 'Expected peak not known: ask the system planner.', 'After contingency not known: ask the system planner.',
      'Who loses supply Not known: ask the system planner.', 'What isolates it Isolating points not known: ask the control room. It runs from Elm to Oak.',
      'Call list not known: ask the line supervisor.', 'How soon there, how long, what recall: not known, ask the line supervisor.',
    ]) expect(text).toContain(asks)
  })

  it('has what was noted of the circuit, with when each flow is of and who said it', () => {
    const text = sheet(detail({
      if_it_trips: trip({
        loses_supply: 'Mill, 300 customers', isolated_by: 'Switch 7 at Elm', called: 'North desk: 4430\nLine duty: 5130', on_site_h: 1.5, repair_h: 8, recall_h: 3, noted_by: 'O. Operator',
        noted_at: '2026-11-20T08:00:00.000Z', radial: true, mw: 24,
      }),
      last_load: { current_a: 184, taken_at: '2026-11-24T11:30:00.000Z', quality: 'measured' }, expected_peak: { current_a: 546, taken_at: '2027-01-14T18:00:00.000Z' },
    }))
    expect(text).toContain('Who loses supply Mill, 300 customers. Radial: its load goes with it, 24 MW.')
    expect(text).toContain('What isolates it Switch 7 at Elm.')
    expect(text).toMatch(/North desk: 4430 Line duty: 5130 On site in 1\.5 h, repair 8 h, handed back 3 h after recall\. Noted 20 Nov 2026 by O\. Operator\./)
    expect(text).toMatch(/Last known flow 184 A , measured, 24 Nov 2026 11:30 UTC/)
    expect(text).toMatch(/Expected peak 546 A . Planner, for 14 Jan 2027\./)
  })

  it('tells the last decision on reclosing, and asks for one where none stands', () => {
    const call = {
      key: 'call-1', id: 1, kind: 'call' as const, splice_id: 1, splice: 'T-B-07', circuit_id: 3, circuit: 'Elm-Oak 1', position_text: null, class: 'critical' as const, class_now: 'critical' as const, by: 'L. Engineer',
      whom: 'Control room', at: '2026-11-24T10:00:00.000Z', decided: ['reclosing-blocked' as const], nothing_why: null, note: null, told_control_room: true, noted_at: '2026-11-24T10:00:00.000Z',
      noted_by: 'L. Engineer', struck_at: null, struck_by: null, struck_why: null,
    }
    expect(sheet(detail({ calls: [call] }))).toContain('Automatic reclosing blocked, decided 24 Nov 2026 10:00 UTC. After a trip')
    const struck = { ...call, struck_at: '2026-11-24T11:00:00.000Z', struck_by: 'L. Engineer', struck_why: 'Another splice.' }
    expect(sheet(detail({ calls: [struck] }))).toContain('Engineer and operations decide now whether automatic reclosing stays on.')
  })
})

describe('whether it will drop', () => {
  it('is never answered by saying that it holds, whatever its class', () => {
    for (const shown of ['sound', 'watch', 'degraded', 'urgent', 'critical', 'unknown'] as const) {
      const text = drop(detail({ class: shown })).join(' ')
      expect(text).not.toMatch(/\bsafe\b|will hold|will not drop/i)
      expect(text).toMatch(/no reading tells when|tells no time to failure|no reading was conclusive/i)
    }
    expect(drop(detail({ removed_on: '2026-11-01' }))).toEqual([])
  })

  it('has the earliest day of a worse class where its growth tells one, and how it grew', () => {
    const day = (at: string) => Date.parse(at)
    const trends = [{
      series: 'A', growing: true, points: [{ takenAtMs: day('2022-06-01'), k: 1.2, uLnK: 0.05 }, { takenAtMs: day('2026-06-01'), k: 1.9, uLnK: 0.05 }],
      passings: [{ class: 'critical', k: 2.75, medianAtMs: day('2029-03-01'), earliestAtMs: day('2028-02-15') }],
      line: { fit: { centre: 0, level: 0, slope: 0, uLevel: 0, uSlope: 0, uNext: 0 }, quantile: 1.6 }, originMs: 0,
    }]
    const said = drop(detail({ class: 'urgent', assessment: assessment({ class: 'urgent', trends }) })).join(' ')
    expect(said).toContain('It may be critical from Feb 2028 on.')
    expect(said).toContain('Side A went from 1.20 to 1.90 between Jun 2022 and Jun 2026.')
    expect(drop(detail()).join(' ')).toContain('How fast it grows is not known')
  })

  it('names the next class above the present one, and not one that is passed', () => {
    const day = (at: string) => Date.parse(at)
    const trends = [{
      series: 'B', growing: true, points: [{ takenAtMs: day('2022-06-01'), k: 1.1, uLnK: 0.05 }, { takenAtMs: day('2026-06-01'), k: 1.36, uLnK: 0.05 }],
      passings: [
        { class: 'watch', k: 1, medianAtMs: null, earliestAtMs: day('2026-09-01') }, { class: 'degraded', k: 1.5, medianAtMs: null, earliestAtMs: day('2029-01-01') },
        { class: 'urgent', k: 2, medianAtMs: null, earliestAtMs: day('2033-05-01') },
      ],
      line: { fit: { centre: 0, level: 0, slope: 0, uLevel: 0, uSlope: 0, uNext: 0 }, quantile: 1.6 }, originMs: 0,
    }]
    const [said] = drop(detail({ class: 'degraded', assessment: assessment({ class: 'degraded', trends }) }))
    expect(said).toContain('It may be urgent from May 2033 on.')
    expect(said).not.toContain('watch')
  })

  it('is not known where it is hot without a resistance, or where a side was not read', () => {
    const [hot] = drop(detail({ class: 'degraded', assessment: assessment({ class: 'degraded', raisedBy: 'heat', sides: [] }) }))
    expect(hot).toBe('Not known: it is hot under load, and its resistance was not read. Measure it.')
    expect(drop(detail({ class: 'degraded', assessment: assessment({ class: 'degraded', raisedBy: 'heat' }) }))[0]).toMatch(/^Not known: it is hotter under load than its resistance explains/)
    expect(drop(detail({ class: 'watch', assessment: assessment({ class: 'watch', flags: ['infrared-only'] }) }))[0]).toMatch(/one bad side may not have shown/)
    expect(drop(detail({ class: 'watch', assessment: assessment({ class: 'watch', flags: ['partial'] }) }))[0]).toMatch(/^Not known of all of it: not every side was read/)
    expect(drop(detail({ class: 'sound', measure_by: '2026-01-01', assessment: assessment({ class: 'sound' }) }))[0]).toMatch(/^Not known any more/)
  })

  it('sends what was seen of its strength to engineering, and says what lies below', () => {
    expect(drop(detail({ assessment: assessment({ mechanicalFindings: ['rust-bleed', 'slip'] }) })).join(' ')).toContain('Seen: rust bleed, slip. Its strength is for engineering to judge now.')
    const crossings = [{ kind: 'rail', name: 'Branch line', line_distance_m: 13_163 }, { kind: 'road', name: null, line_distance_m: 13_103 }]
    expect(drop(detail({ if_it_trips: trip({ crossings }) })).join(' '))
      .toContain('Conductor down would come over: rail, Branch line, 40 m ahead; road 20 m back. Clearance there: ask line engineering.')
    expect(drop(detail()).join(' ')).toContain('No crossing of its span is on file')
  })
})

describe('what is noted of a circuit', () => {
  it('reads as a sentence, and what is missing of it says whom to ask', () => {
    expect(supplyText({ loses_supply: null, radial: true, mw: 24 })).toEqual(['Whom that leaves without supply is not known: ask the system planner.', 'Radial: its load goes with it, 24 MW.'])
    expect(supplyText({ loses_supply: null, radial: null, mw: null })).toEqual(['Not known: ask the system planner.'])
    expect(isolationText({ isolated_by: 'Switch 7.', from: 'Elm', to: 'Oak' })).toEqual(['Switch 7.'])
    expect(calledLines({ called: ' North desk \r\n\n Line duty' })).toEqual(['North desk', 'Line duty'])
    expect(timesText({ on_site_h: 2, repair_h: null, recall_h: 0 })).toBe('On site in 2 h, handed back 0 h after recall. How long: not known, ask the line supervisor.')
  })

  it('is sent with null for what was left empty, and hours as they are typed in any country', () => {
    const values = { loses_supply: ' Mill ', isolated_by: '', called: '  ', on_site_h: '1,5', repair_h: '', recall_h: '3', noted_by: ' O. Operator ' }
    const body = tripBody(values)
    expect(body).toEqual({ loses_supply: 'Mill', isolated_by: null, called: null, on_site_h: 1.5, repair_h: null, recall_h: 3, noted_by: 'O. Operator' })
    expect(ifItTripsBody.safeParse(body).success).toBe(true)
  })
})

describe('where it is, as people say it', () => {
  const at = (offsetM: number, spanM = 300) => spokenText({ structure_back: '45', structure_ahead: '46', offset_m: offsetM }, spanM)

  it('tells the share of the span by words, ahead of the structure back or back of the one ahead', () => {
    expect(at(100)).toBe('one third ahead of 45')
    expect(at(150)).toBe('halfway between 45 and 46')
    expect(at(225)).toBe('three quarters ahead of 45')
    expect(at(30)).toBe('a tenth ahead of 45')
    expect(at(290)).toBe('a tenth back of 46')
  })

  it('says nothing at a structure, beyond its span or where one of the structures has no name', () => {
    expect(at(2)).toBe('')
    expect(at(400)).toBe('')
    expect(at(100, 0)).toBe('')
    expect(spokenText({ structure_back: null, structure_ahead: '46', offset_m: 100 }, 300)).toBe('')
  })

  it('gives devices the address of RFC 5870: latitude before longitude', () => {
    // RFC 5870, 1: geo:13.4125,103.8667 is a place in Cambodia, 13.4 degrees north.
    expect(geoUri(103.8667, 13.4125)).toBe('geo:13.412500,103.866700')
  })
})

describe('how its readings came to it', () => {
  const placed = (over: Partial<SpliceDetail['readings'][number]['placement']>) => reading({ placement: { ...reading().placement, ...over } })

  it('is told by method and by the least sure of them', () => {
    expect(placedText([placed({}), placed({ method: 'declared', probability: 0.93 })])).toBe('2 readings: 1 by its track, 1 as declared; the least sure 93%.')
    expect(placedText([placed({})])).toBe('1 reading by its track; 99% sure.')
  })

  it('names where else one may have been taken', () => {
    const other = { reading_id: 11, places: [{ circuit_id: 4, circuit: 'Elm-Oak 2', position_text: 'STR 45-46 + 120 m, phase B', probability: 0.04 }] }
    expect(otherText(other, [reading()], 'UTC')).toBe('14 Mar 2026, reading R-11: or circuit Elm-Oak 2, STR 45-46 + 120 m, phase B, 4%.')
  })

  it('has the remarks and the names of pictures, and says that the files are not kept here', () => {
    const text = (fields: Record<string, string>) => plain(renderToStaticMarkup(createElement(Remarks, { readings: [reading({ fields })], timeZone: 'UTC' })))
    expect(text({ note: 'Corona ring loose', photo: 'IMG_0231', crew: 'Crew 4' }))
      .toMatch(/Corona ring loose \( ?14 Mar 2026, Crew 4 ?\) .*Pictures named: IMG_0231 \(14 Mar 2026, Crew 4\)\. Not kept here: ask whoever took them\./)
    expect(text({})).toContain('None came with a reading.')
  })
})
