import { GREATEST_RATIO } from '@/lib/units/format'
import type { ReasonReader, Sentence } from './reason-reader'

const FIELD_WORDS: Record<string, string> = {
  sideAUohm: 'Side A', sideBUohm: 'Side B', conductorUohm: 'A conductor reading', conductorBUohm: 'A second conductor reading',
}

const MISSING_REFERENCE: Record<string, string> = {
  span: 'The conductor was not measured and the electrode span was not noted, so the table cannot stand in.',
  code: 'The conductor was not measured and no conductor is on record, so there is nothing to compare with.',
  table: 'The conductor was not measured and is not in the table, so there is nothing to compare with.',
}

const lower = (text: string): string => (text.startsWith('Side') ? text.replace('Side', 'side') : text.replace('The', 'the'))

function reference(r: ReasonReader): string {
  const way = r.number('deviation') > 0 ? 'above' : 'below'
  const fitting = r.word('fitting')
  return `The conductor reads ${r.uohm('conductorUohm')}, ${r.share('size')} ${way} the ${r.uohm('expectedUohm')} of `
    + `${r.word('conductor')} over ${r.length('spanM')} at ${r.temperature('temperatureC')}.`
    + (fitting === '' ? '' : ` It would fit ${fitting}: is the code word right, and the electrode span?`)
}

/** What was wrong with readings, and what was done about it. */
export const READING_SENTENCES: Record<string, Sentence> = {
  'side-from-earlier': (r) => `${r.side()} comes from an earlier visit${r.onDate('takenAtMs')}, since the last one did not measure it.`,
  'instruments-disagree': (r) =>
    `Two instruments or methods disagree on side ${r.word('side')}: ${r.ratio('ratio')} against ${r.ratio('otherRatio')}; `
    + 'the worse one is taken.',
  'repeats-disagree': (r) =>
    `Repeats of ${r.is('declared', false) ? 'a side' : `side ${r.word('side')}`} in one visit contradict each other: ${r.uohm('sideUohm')} against ${r.uohm('againstUohm')}; `
    + 'no mean is taken and the worse stands until it is measured again.',
  'ratio-fell': (r) =>
    `${r.is('declared', false) ? 'The worse side' : r.side()} read ${r.ratio('from')}${r.onDate('takenAtMs') || ' before'} and `
    + `${r.ratio('to')}${r.onDate('nowAtMs') || ' now'}, without a repair between: one of the two is wrong, or the electrodes moved.`,
  'ratio-jumped': (r) =>
    `${r.is('declared', false) ? 'The worse side' : r.side()} rose ${r.number('times') > GREATEST_RATIO ? r.plainRatio('times') : r.oneDecimal('times')} times in ${r.count('days')} ${r.number('days') === 1 ? 'day' : 'days'}, `
    + `from ${r.ratio('from')}${r.onDate('takenAtMs')} to ${r.ratio('to')}: repeat it, confirm that it is this splice, and look for slip.`,
  'reading-out-of-range': (r) =>
    `${FIELD_WORDS[r.word('field')] ?? r.word('field')} of ${r.uohm('uohm')} is not used: `
    + `an instrument reads ${r.uohm('leastUohm')} to ${r.uohm('greatestUohm')}.`,
  'ratio-beyond': (r) =>
    `${r.side()} reads ${r.plainRatio('ratio')} times the conductor: an open interface, an instrument past its range, or milliohm given as microohm. `
    + 'It stands until a repeat shows which.',
  'implausible-side': (r) =>
    `${r.side()} reads ${r.plainRatio('ratio')} times the conductor, under ${r.plainRatio('limit')}: `
    + 'both electrodes were on the barrel. It is not used.',
  'interface-not-proved': (r) =>
    `${r.side()} reads ${r.plainRatio('ratio')}, hardly more than ${r.is('barrelAssumed', true) ? 'a typical barrel' : 'the barrel'} alone `
    + `(${r.plainRatio('barrelRatio')}): its interface did not lie between the electrodes.`,
  'electrode-off-barrel': (r) =>
    `The barrel electrode of ${lower(r.side())} was not on the barrel: its interface did not lie between the electrodes.`,
  'electrode-within-crimp': (r) =>
    `The barrel electrode of ${r.is('side', 'both') ? 'both sides' : lower(r.side())} sat ${r.length('barrelElectrodeM')} from the mouth of a barrel of ${r.length('barrelLengthM')}`
    + `${r.is('lengthAssumed', true) ? ', as long as is usual for this conductor' : ''}, within the ${r.length('crimpedM')} that are taken as crimped: `
    + 'part of the interface lay outside the reading, so the ratio is at least what was read. Set the electrode past the last crimp mark and read again.',
  'conductor-from-table': (r) =>
    `The conductor was not measured${r.has('typed') ? ' so that it could be used' : ''}: ${r.word('conductor')} over ${r.length('spanM')} at ${r.temperature('temperatureC')} `
    + `is taken as ${r.uohm('uohm')}, give or take ${r.share('uRel')}.`,
  'conductor-unusable': (r) => `No conductor reads '${r.word('typed')}', which was written for it.`,
  'conductor-reference-warn': reference,
  'conductor-reference-suspect': reference,
  'conductor-references-differ': (r) =>
    `The two conductor readings, ${r.uohm('aUohm')} and ${r.uohm('bUohm')}, differ; the lower one is taken.`,
  'no-conductor-reference': (r) => MISSING_REFERENCE[r.word('missing')] ?? 'There is no conductor reading to compare with.',
  'span-converted': (r) =>
    `The conductor was read over ${r.length('conductorSpanM')} and the side over ${r.length('sideSpanM')}: `
    + 'the conductor reading was converted.',
  'span-refused': (r) =>
    `The conductor was read over ${r.length('conductorSpanM')} and the side over ${r.length('sideSpanM')}, too different for a ratio.`,
  'span-unknown': (r) => r.has('spanM')
    ? `An electrode span of ${r.length('spanM')} cannot be right: ${r.length('leastM')} to ${r.length('greatestM')} are in use.`
    : 'The electrode span was not noted, so the conductor reading cannot be checked against its table value.',
  'side-span-differs': (r) =>
    `A repeat of side ${r.word('side')} over ${r.length('spanM')} is not used: the newest one was over ${r.length('usedSpanM')}.`,
  'single-layer-core': (r) =>
    `The live conductor reading includes the effect of the steel core. ${r.side()} reads ${r.ratio('ratio')} against it and `
    + `${r.ratio('dcRatio')} against ${r.uohm('dcConductorUohm')} without it; the worse one stands.`,
  'table-governs': (r) =>
    `${r.side()} reads ${r.ratio('ratio')} against that conductor reading and ${r.ratio('tableRatio')} against the table: `
    + 'the worse one stands, provisionally, until the conductor is measured again.',
  'measured-governs': (r) =>
    `${r.side()} reads ${r.ratio('ratio')} against that conductor reading, which governs, and ${r.ratio('tableRatio')} against the table: `
    + 'confidence is no more than medium until the conductor is measured again or its code word is put right.',
  'low-test-current': (r) =>
    `A reading at ${r.current('currentA')} per conductor proves nothing: the instrument needs ${r.current('minimumA')}.`,
  'ac-dc-mixed': () => 'Live and dead readings of one visit were kept apart.',
}
