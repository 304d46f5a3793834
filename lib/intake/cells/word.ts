/** Words meant alike compare alike: case, blanks, hyphens, underscores, dots and slashes do not count. */
export const wordToken = (text: string): string => text.normalize('NFKC').toLowerCase().replace(/[\s_\-./'’]+/g, '')

const NOTHING = new Set(['-', '--', '—', '–', 'n/a', 'na', 'null', 'nil', 'not measured', 'not known', 'unknown', '?', '.'])

/** What people write where they have nothing to write. */
export const saysNothing = (text: string): boolean => text.length <= 12 && NOTHING.has(text.toLowerCase())
