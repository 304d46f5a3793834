import { expect, it } from 'vitest'
import { howMeasured } from '@/components/splice/reading-figures'
import { reading } from '@/test/fixtures/components/samples'

it('says with which instrument and where the electrodes sat, and no more than the row did', () => {
  const of = (fields: Record<string, string | number>) => howMeasured({ ...reading(), fields }, 'metric')
  expect(of({ instrument: 'RM-07', barrel_electrode_m: 0.2, electrode_span_m: 0.3048, conductor_span_m: 1 }))
    .toBe('RM-07, barrel electrode 200 mm from the mouth, conductor over 1.00 m')
  expect(of({ electrode_span_m: 0.3048, conductor_span_m: 0.3048 })).toBe('')
  expect(howMeasured({ ...reading(), fields: { barrel_electrode_m: 0.2 } }, 'us')).toBe('barrel electrode 7.9 in from the mouth')
})
