import { describe, expect, it } from 'vitest'
import { siText } from '@/components/splice/working-text'

describe('the working', () => {
  it('says quantities in SI to everybody, in the reader\'s spelling', () => {
    expect(siText('aluminium at {93 °C} in {0.61 m/s}', 'us')).toBe('aluminum at 93 °C in 0.61 m/s')
    expect(siText('aluminium at {93 °C} in {0.61 m/s}', 'metric')).toBe('aluminium at 93 °C in 0.61 m/s')
  })
})
