/** GeoJSON of 2008 could name a reference system; RFC 7946 section 4 knows WGS84 alone. Null where the name is WGS84. */
export function crsNote(crsText: string): string | null {
  const name = nameOf(crsText)
  if (name === null) return null
  if (/CRS84$|(^|:)4326$/.test(name)) return null
  return `The file names the reference system '${name}', and is read as WGS84 longitude and latitude, the only one of RFC 7946: `
    + 'export it again as WGS84 if the lines land in the wrong place.'
}

function nameOf(crsText: string): string | null {
  try {
    const crs = JSON.parse(crsText) as { properties?: { name?: unknown; code?: unknown } } | null
    if (crs === null) return null
    const name = crs.properties?.name ?? crs.properties?.code
    return name === undefined ? 'unnamed' : String(name).slice(0, 100)
  } catch {
    return 'unreadable'
  }
}
