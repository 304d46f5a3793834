import type { ReasonReader, Sentence } from './reason-reader'

function classRule(r: ReasonReader): string {
  const measured = r.word('class')
  const chance = `the chance of a ratio over ${r.edge('edge')} is ${r.chance('chance')}`
  if (measured === 'sound') {
    return `By infrared alone the splice counts as electrically sound: ${chance}, and more than ${r.share('limit')} would make it watch.`
  }
  if (r.is('capped', true)) {
    return `By infrared alone the splice counts as degraded at least: in wind over ${r.speed('windMS')} a picture lifts no class higher.`
  }
  const limit = measured === 'urgent' || measured === 'critical' ? `${r.share('limit')} or more` : `more than ${r.share('limit')}`
  return `By infrared alone the splice counts as ${measured}: ${chance}, and ${limit} makes it ${measured}.`
}

const when = (r: ReasonReader, key: string): string => (r.has(key) ? r.onDate(key) : ', undated,')

/** What infrared says by the heat balance. */
export const INFRARED_SENTENCES: Record<string, Sentence> = {
  'infrared-class-rule': classRule,
  'infrared-ratio': (r) =>
    `Infrared${r.flight()} gives a ratio of ${r.ratio('ratio')} by the heat balance; nine times in ten the true ratio of the whole splice lies between `
    + `${r.plainRatio('lowRatio')} and ${r.plainRatio('highRatio')}${r.has('emissivity') ? ` at an emissivity of ${r.plainRatio('emissivity')} ± ${r.plainRatio('uEmissivity')} only` : ''}.`,
  'infrared-agrees': (r) =>
    `It agrees with resistance, whose sides have ${r.plainRatio('meanRatio')} in the mean, and counts beside it.`,
  'infrared-lowers-nothing': (r) =>
    `It does not contradict resistance, whose sides have ${r.plainRatio('meanRatio')} in the mean; infrared lowers no class, so resistance stands.`,
  'infrared-conflict': (r) =>
    `Infrared and resistance, whose sides have ${r.plainRatio('meanRatio')} in the mean, cannot both be right: they are not averaged, and the worse, `
    + `${r.is('taken', 'infrared') ? 'infrared' : 'resistance'}, stands.`,
  'infrared-settled': (r) =>
    `Resistance, whose sides have ${r.plainRatio('meanRatio')} in the mean, contradicts it, and independent readings of every interface after it settle that: `
    + 'resistance stands.',
  'infrared-under-one-side': () =>
    'It lies under half of what the one measured side reads, so the two cannot both be right; the worse one stands.',
  'infrared-flights-conflict': (r) =>
    `The pictures${when(r, 'takenAtMs')} (ratio ${r.plainRatio('ratio')}) and${when(r, 'otherAtMs')} (ratio ${r.plainRatio('otherRatio')}) `
    + 'cannot both be right; a splice does not heal, so the worse one stands.',
  'settle-infrared-conflict': () =>
    'What settles it: the resistance of every interface with the electrodes set anew, and a picture within the same hour at high load.',
  'infrared-sees-mean': (r) => r.number('measured') > 0
    ? 'Infrared sees the whole splice and not its worse interface. What settles it: the resistance of the interface that is missing.'
    : 'Infrared sees the whole splice and not its worse interface. What settles it: the resistance of every interface.',
}
