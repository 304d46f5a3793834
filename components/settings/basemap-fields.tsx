'use client'
import { Field } from '@/components/ui/field'
import { Segmented } from '@/components/ui/tabs'
import type { SettingsJson } from '@/lib/contract/settings'
import css from './settings.module.css'

type Basemap = SettingsJson['basemap']
type Kind = Basemap['kind']

const OWN: Record<Exclude<Kind, 'embedded'>, { label: string; hint: string; placeholder: string }> = {
  pmtiles: {
    label: 'Address of the PMTiles file',
    hint: 'OpenStreetMap-based. The server must answer byte ranges.',
    placeholder: 'https://maps.example/region.pmtiles',
  },
  style: {
    label: 'Address of the style',
    hint: 'A MapLibre style as JSON, with its attribution.',
    placeholder: 'https://maps.example/style.json',
  },
}

/** The embedded basemap, or the utility's own. */
export function BasemapFields({
  basemap,
  fault,
  onBasemap,
}: {
  basemap: Basemap
  fault: string | undefined
  onBasemap(basemap: Basemap): void
}) {
  const choose = (kind: Kind) =>
    onBasemap(kind === 'embedded' ? { kind } : { kind, url: basemap.kind === 'embedded' ? '' : basemap.url })
  return (
    <>
      <Segmented<Kind>
        label="Basemap"
        value={basemap.kind}
        onValueChange={choose}
        className={css.wideChoice}
        options={[
          { value: 'embedded', label: 'Embedded' },
          { value: 'pmtiles', label: 'PMTiles file' },
          { value: 'style', label: 'Map style' },
        ]}
      />
      {basemap.kind !== 'embedded' && (
        <Field
          {...OWN[basemap.kind]}
          value={basemap.url}
          inputMode="url"
          autoComplete="off"
          spellCheck={false}
          error={fault}
          onChange={(e) => onBasemap({ kind: basemap.kind, url: e.target.value })}
        />
      )}
    </>
  )
}
