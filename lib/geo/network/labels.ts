/** People write the same name with other capitals and spaces; leading zeros and slashes are part of it. */
export const nameKey = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase()

const PREFIX = /^(?:structure|struct|str|tower|twr|pole|no|nr)[\s.#:-]*(?=[\da-z])/

/** 'STR 045', 'Tower 045' and '045' name one structure; the number stays text. */
export const structureKey = (label: string): string => {
  const key = nameKey(label)
  const bare = key.replace(PREFIX, '')
  return /\d/.test(bare) ? bare : key
}
