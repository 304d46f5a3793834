import type { ReactNode, SVGProps } from 'react'

/** 16 px line icons, 1.5 px strokes on the pixel grid. Decorative: the word stands beside them or in the button's label. */
const PATHS = {
  search: (
    <>
      <circle cx="7" cy="7" r="4.25" />
      <path d="M10.25 10.25 14 14" />
    </>
  ),
  list: <path d="M5.5 4H14M5.5 8H14M5.5 12H14M2 4h.5M2 8h.5M2 12h.5" />,
  map: <path d="M1.75 3.5v10l4-1.5 4.5 1.5 4-1.5v-10l-4 1.5L5.75 2ZM5.75 2v10M10.25 3.5v10" />,
  strip: <path d="M1.5 12.5h13M3 12.5v-3M8 12.5v-3M13 12.5v-3M2 5.5h3M7.5 5.5H14M5.75 5.5h.01" />,
  health: <path d="M2 3h12M2 6.5h12M2 10h12M2 13.5h12M6 3v10.5" />,
  loading: <path d="M6.25 9.25V3.5a1.75 1.75 0 0 1 3.5 0v5.75a3 3 0 1 1-3.5 0ZM8 6v5M12 3.5h2M12 6h2" />,
  intake: <path d="M8 2v7.5M4.75 6.5 8 9.75l3.25-3.25M2 10.5V14h12v-3.5" />,
  calculator: <path d="M3 1.75h10v12.5H3ZM5.25 4.25h5.5v2h-5.5ZM5.25 9h.01M8 9h.01M10.75 9h.01M5.25 11.75h.01M8 11.75h.01M10.75 11.75h.01" />,
  download: <path d="M8 2v8M4.75 7 8 10.25 11.25 7M2.5 13.75h11" />,
  upload: <path d="M8 10.5V2.5M4.75 5.5 8 2.25l3.25 3.25M2.5 13.75h11" />,
  settings: (
    <>
      <path d="M2 4.5h6.5M12 4.5h2M2 11.5h2M7.5 11.5H14" />
      <circle cx="10.25" cy="4.5" r="1.75" />
      <circle cx="5.75" cy="11.5" r="1.75" />
    </>
  ),
  more: <path d="M3 8h.01M8 8h.01M13 8h.01" strokeWidth="2.25" />,
  light: (
    <>
      <circle cx="8" cy="8" r="2.75" />
      <path d="M8 1.5v1.25M8 13.25v1.25M1.5 8h1.25M13.25 8h1.25M3.4 3.4l.9.9M11.7 11.7l.9.9M3.4 12.6l.9-.9M11.7 4.3l.9-.9" />
    </>
  ),
  dark: <path d="M13.5 9.5A5.75 5.75 0 0 1 6.5 2.5a5.75 5.75 0 1 0 7 7Z" />,
  system: (
    <>
      <circle cx="8" cy="8" r="5.75" />
      <path d="M8 2.25v11.5a5.75 5.75 0 0 0 0-11.5Z" fill="currentColor" />
    </>
  ),
  close: <path d="m3.5 3.5 9 9M12.5 3.5l-9 9" />,
  check: <path d="m2.75 8.5 3.5 3.5 7-7.75" />,
  copy: <path d="M5.5 5.5h8v8h-8ZM10.5 5.5v-3h-8v8h3" />,
  print: <path d="M4.5 6V2.25h7V6M4.5 11.5H2.25V6h11.5v5.5H11.5M4.5 9.5h7v4.25h-7Z" />,
  undo: <path d="M2.25 6h7.5a3.75 3.75 0 0 1 0 7.5H6M5.25 2.75 2 6l3.25 3.25" />,
  warning: <path d="M8 2 1.5 13.5h13ZM8 6.25v3.5M8 11.5v.25" />,
  info: (
    <>
      <circle cx="8" cy="8" r="5.75" />
      <path d="M8 7.25V11M8 5v.25" />
    </>
  ),
  up: <path d="m3.5 10 4.5-4.5 4.5 4.5" />,
  down: <path d="m3.5 6 4.5 4.5L12.5 6" />,
  left: <path d="M10 3.5 5.5 8l4.5 4.5" />,
  right: <path d="m6 3.5 4.5 4.5L6 12.5" />,
  arrow: <path d="M2.5 8h11M9.25 3.75 13.5 8l-4.25 4.25" />,
  panelLeft: <path d="M2 2.75h12v10.5H2ZM6 2.75v10.5" />,
  panelRight: <path d="M2 2.75h12v10.5H2ZM10 2.75v10.5" />,
  whole: <path d="M2 3.5v9M14 3.5v9M4.5 8h7M6.5 5.75 4.25 8l2.25 2.25M9.5 5.75 11.75 8 9.5 10.25" />,
  filter: <path d="M2 4h12M4.25 8h7.5M6.5 12h3" />,
  target: (
    <>
      <circle cx="8" cy="8" r="4.25" />
      <path d="M8 1.5v4M8 10.5v4M1.5 8h4M10.5 8h4" />
    </>
  ),
  phone: (
    <path d="M3 2.5h2.75L7 5.75 5.25 7A8 8 0 0 0 9 10.75L10.25 9l3.25 1.25V13a1 1 0 0 1-1.1 1A11.5 11.5 0 0 1 2 3.6 1 1 0 0 1 3 2.5Z" />
  ),
} satisfies Record<string, ReactNode>

export type IconName = keyof typeof PATHS

export function Icon({ name, ...rest }: { name: IconName } & SVGProps<SVGSVGElement>) {
  return (
    <svg
      width="16"
      height="16"
      viewBox="0 0 16 16"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
      focusable="false"
      {...rest}>
      {PATHS[name]}
    </svg>
  )
}
