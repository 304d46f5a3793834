const NUMBER = String.raw`[-+−]?\d{1,3}(?:\.\d+)?`
const DECIMAL = new RegExp(String.raw`^\s*(${NUMBER})\s*°?\s*([NS])?\s*[,; ]\s*(${NUMBER})\s*°?\s*([EW])?\s*$`, 'i')
const ANGLE = String.raw`(\d{1,3})\s*[°d:\s]\s*(\d{1,2})\s*['’′m:\s]\s*(\d{1,2}(?:\.\d+)?)?\s*(?:["”″s]|'')?`
const DMS = new RegExp(String.raw`^\s*${ANGLE}\s*([NS])\s*[,; ]?\s*${ANGLE}\s*([EW])\s*$`, 'i')

const sign = (hemisphere: string | undefined): number => (/[SW]/i.test(hemisphere ?? '') ? -1 : 1)

/**
 * A place as people type it, latitude first: `46.8721, -113.994`, `46.8721 N 113.994 W` or `46°52'19.6"N 113°59'38"W`.
 * Null where the text is no pair of coordinates, or lies outside latitude ±90°, longitude ±180°.
 */
export function parseCoordinates(text: string): { lon: number; lat: number } | null {
  const pair = decimal(text) ?? degreesMinutesSeconds(text)
  return pair && Math.abs(pair.lat) <= 90 && Math.abs(pair.lon) <= 180 ? pair : null
}

function decimal(text: string): { lon: number; lat: number } | null {
  const m = DECIMAL.exec(text)
  if (!m) return null
  const degrees = (value = '', hemisphere?: string) => Number(value.replace('−', '-')) * sign(hemisphere)
  return { lat: degrees(m[1], m[2]), lon: degrees(m[3], m[4]) }
}

function degreesMinutesSeconds(text: string): { lon: number; lat: number } | null {
  const m = DMS.exec(text)
  if (!m) return null
  const [, latD, latM, latS = '0', ns, lonD, lonM, lonS = '0', ew] = m
  if ([latM, latS, lonM, lonS].some((part) => Number(part) >= 60)) return null
  const degrees = (d = '0', minutes = '0', s = '0', hemisphere?: string) => (Number(d) + Number(minutes) / 60 + Number(s) / 3600) * sign(hemisphere)
  return { lat: degrees(latD, latM, latS, ns), lon: degrees(lonD, lonM, lonS, ew) }
}
