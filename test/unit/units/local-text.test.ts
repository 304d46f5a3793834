import { describe, expect, it } from 'vitest'
import { localText } from '@/lib/units/local-text'
import { spell } from '@/lib/units/spelling'

describe('a sentence at the reader’s edge', () => {
  it('turns temperatures by 9/5 and 32, and their differences by 9/5 alone', () => {
    expect(localText('over {93 °C} and {125 °C}', 'us')).toBe('over 199 °F and 257 °F')
    expect(localText('{1 to 3 K}, {30 to 50 K}, {0.5 K}', 'us')).toBe('1.8 to 5.4 °F, 54 to 90 °F, 0.9 °F')
    expect(localText('{93 °C}, {1 to 3 K}', 'metric')).toBe('93 °C, 1 to 3 °C')
  })

  it('turns wind and lengths', () => {
    expect(localText('{4 m/s}, {1 m}, {10 m}, {1000 m}', 'us')).toBe('9 mph, 3 ft, 33 ft, 3,281 ft')
    expect(localText('{4 m/s}, {10 m}, {1900 m}', 'metric')).toBe('4 m/s, 10 m, 1,900 m')
  })

  it('spells as a US utility does, or as it is written', () => {
    const written = 'Centred on the centreline, 12 metres of grey aluminium, de-energised, recognised. Ageing, discolouration, 5 per cent.'
    expect(spell(written, 'us'))
      .toBe('Centered on the centerline, 12 meters of gray aluminum, de-energized, recognized. Aging, discoloration, 5 percent.')
    expect(spell(written, 'metric')).toBe(written)
    expect(spell('A central parameter of the meter.', 'us')).toBe('A central parameter of the meter.')
  })

  it('leaves alone a name within a sentence, and what a file or a person wrote', () => {
    expect(spell("Column 'Colour' is the utility's own colour, \"Centre Line\" and colour_code.", 'us'))
      .toBe("Column 'Colour' is the utility's own color, \"Centre Line\" and colour_code.")
    expect(spell('Take circuit Centre Hall 230 for its centre.', 'us')).toBe('Take circuit Centre Hall 230 for its center.')
  })
})
