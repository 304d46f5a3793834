/** What style sheets say of a drawing, which a picture of it must say itself. */
const STYLES = [
  'fill', 'fill-opacity', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linejoin', 'stroke-opacity', 'opacity', 'font-size', 'font-weight', 'text-anchor', 'dominant-baseline',
  'paint-order', 'shape-rendering', 'display', 'color',
]
const FONT = 'system-ui, sans-serif' // a picture is drawn without the page's fonts

export interface StripPicture { image: HTMLImageElement; widthPx: number; heightPx: number; name: string }

/** The strip on screen as a picture; null where none is drawn. */
export async function takeStripPicture(): Promise<StripPicture | null> {
  const svg = document.querySelector<SVGSVGElement>('svg[data-strip]')
  const [widthPx, heightPx] = [svg?.width.baseVal.value ?? 0, svg?.height.baseVal.value ?? 0]
  if (!svg || widthPx === 0 || heightPx === 0) return null
  const copy = styled(svg)
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('font-family', FONT)
  const url = URL.createObjectURL(new Blob([new XMLSerializer().serializeToString(copy)], { type: 'image/svg+xml' }))
  try {
    const image = new Image()
    image.src = url
    await image.decode()
    return { image, widthPx, heightPx, name: svg.dataset.strip ?? '' }
  } finally {
    URL.revokeObjectURL(url)
  }
}

function styled(svg: SVGSVGElement): SVGSVGElement {
  const copy = svg.cloneNode(true) as SVGSVGElement
  const from = [svg, ...svg.querySelectorAll('*')]
  const to = [copy, ...copy.querySelectorAll('*')]
  from.forEach((element, i) => {
    const shown = getComputedStyle(element)
    for (const name of STYLES) to[i]?.setAttribute(name, shown.getPropertyValue(name))
    to[i]?.removeAttribute('class')
    to[i]?.removeAttribute('style')
  })
  return copy
}
