import type { StyleSpecification } from 'maplibre-gl'

/** Names of our own, so that an operator's style keeps its fonts. One family name per weight. */
export const REGULAR = ['Spanledger Map']
export const SEMIBOLD = ['Spanledger Map Semibold']

/** Labels are drawn from the font files themselves; no glyph server is needed. `origin` without a slash at its end. */
export function fontFaces(origin: string): NonNullable<StyleSpecification['font-faces']> {
  const files = (weight: 400 | 600) => [
    { url: `${origin}/fonts/noto-sans-latin-${weight}-normal.woff2`, 'unicode-range': ['U+0000-00FF', 'U+2000-206F', 'U+2212'] },
    { url: `${origin}/fonts/noto-sans-latin-ext-${weight}-normal.woff2`, 'unicode-range': ['U+0100-02BA', 'U+1E00-1E9F'] },
  ]
  return { [REGULAR[0] ?? '']: files(400), [SEMIBOLD[0] ?? '']: files(600) }
}
