'use client'
import { useId, useState, type ReactNode } from 'react'
import { useRouter } from 'next/navigation'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { Button } from '@/components/ui/button'
import { asSentences, fetchJson, RequestFailed, sending } from '@/components/ui/fetch-json'
import { Field } from '@/components/ui/field'
import { ErrorState, Skeleton } from '@/components/ui/states'
import { Segmented } from '@/components/ui/tabs'
import { useToast } from '@/components/ui/toast'
import { useLocalText } from '@/components/ui/use-local-text'
import { settings, type SettingsJson } from '@/lib/contract/settings'
import { BasemapFields } from './basemap-fields'
import { PeakFields } from './peak-fields'
import { SettingsSample } from './settings-sample'
import { SETTINGS_KEY, useSettings } from './use-settings'
import { LETTER_SETS, settingsFaults } from './utility-draft'
import css from './settings.module.css'

const PEAK_NOTE = `Urgent and critical splices come back to be looked at in each of them until they are repaired. Every day, by the time zone above;
one that ends before it begins ends on the next day. Common practice, no source.`

/** What the whole utility shares: name and mark, units and zone, phase letters, basemap. */
export function UtilityScreen() {
  const asked = useSettings()
  if (asked.isError && !asked.data)
    return <ErrorState {...asSentences(asked.error)} action={<Button onClick={() => void asked.refetch()}>Try again</Button>} />
  if (!asked.data)
    return (
      <div className={css.form} aria-busy="true">
        {[0, 1, 2, 3].map((i) => (
          <Skeleton key={i} height={48} />
        ))}
      </div>
    )
  return <UtilityForm key={JSON.stringify(asked.data)} stored={asked.data} />
}

function UtilityForm({ stored }: { stored: SettingsJson }) {
  const client = useQueryClient()
  const local = useLocalText()
  const toast = useToast()
  const router = useRouter()
  const [draft, setDraft] = useState(stored)
  const faults = settingsFaults(draft)
  const changed = JSON.stringify(draft) !== JSON.stringify(stored)
  const put = (part: Partial<SettingsJson>) => setDraft((d) => ({ ...d, ...part }))
  const write = (value: SettingsJson) =>
    fetchJson('/api/v1/settings', settings, sending('PUT', value))
  const save = useMutation({
    mutationFn: write,
    onSuccess: (saved) => {
      client.setQueryData(SETTINGS_KEY, saved)
      router.refresh()
      toast({
        title: 'Settings saved',
        undo: {
          run: () => {
            void write(stored).then((back) => {
              client.setQueryData(SETTINGS_KEY, back)
              router.refresh()
            })
          },
        },
      })
    },
  })
  const refused =
    save.error instanceof RequestFailed ? new Map(save.error.fields.map((f) => [f.path, f.message])) : new Map<string, string>()
  const fault = (path: string) => faults.get(path) ?? refused.get(path)
  return (
    <div className={css.beside}>
      <form
        className={css.form}
        onSubmit={(e) => {
          e.preventDefault()
          if (changed && faults.size === 0) save.mutate(draft)
        }}
      >
        <Part title="Name and mark">
          <Field
            label="Name"
            value={draft.utility_name}
            maxLength={120}
            error={fault('utility_name')}
            onChange={(e) => put({ utility_name: e.target.value })}
          />
          <Field
            label="Information-handling mark"
            optional
            value={draft.information_mark}
            maxLength={120}
            error={fault('information_mark')}
            hint="Stands on every print, feed and export."
            onChange={(e) => put({ information_mark: e.target.value })}
          />
        </Part>
        <Part title="Units and time">
          <div className={css.choice}>
            <span>Units for everybody who has not chosen</span>
            <Segmented<SettingsJson['unit_system']>
              label="Units"
              value={draft.unit_system}
              onValueChange={(unit_system) => put({ unit_system })}
              options={[
                { value: 'us', label: 'Feet, °F, kcmil' },
                { value: 'metric', label: local('Metres, °C, mm²') },
              ]}
            />
          </div>
          <ZoneField zone={draft.time_zone} fault={fault('time_zone')} onZone={(time_zone) => put({ time_zone })} />
        </Part>
        <Part title="Peak-load periods" note={PEAK_NOTE}>
          <PeakFields periods={draft.peak_periods} fault={fault} onPeriods={(peak_periods) => put({ peak_periods })} />
        </Part>
        <Part title="Phase letters" note="What your people write. Files may use any of the usual names; screens and prints use yours.">
          <div className={css.sets}>
            {LETTER_SETS.map((s) => (
              <Button key={s.label} size="small" onClick={() => put({ phase_letters: s.letters })}>
                {s.label}
              </Button>
            ))}
          </div>
          <div className={css.letters}>
            {(['A', 'B', 'C'] as const).map((p) => (
              <Field
                key={p}
                label={`Phase ${p} is`}
                value={draft.phase_letters[p]}
                maxLength={8}
                error={fault(`phase_letters.${p}`)}
                onChange={(e) => put({ phase_letters: { ...draft.phase_letters, [p]: e.target.value } })}
              />
            ))}
          </div>
        </Part>
        <Part title="Basemap" note="When yours does not answer, the embedded one is drawn.">
          <BasemapFields basemap={draft.basemap} fault={fault('basemap.url')} onBasemap={(basemap) => put({ basemap })} />
        </Part>
        {save.isError && refused.size === 0 && <ErrorState small {...asSentences(save.error)} />}
        <div className={css.foot}>
          <Button disabled={!changed} onClick={() => setDraft(stored)}>
            Discard
          </Button>
          <Button type="submit" variant="primary" disabled={!changed || faults.size > 0} busy={save.isPending}>
            Save settings
          </Button>
        </div>
      </form>
      <SettingsSample draft={draft} />
    </div>
  )
}

function Part({ title, note, children }: { title: string; note?: string; children: ReactNode }) {
  return (
    <fieldset className={css.part}>
      <legend>{title}</legend>
      {note && <p className={css.note}>{note}</p>}
      {children}
    </fieldset>
  )
}

function ZoneField({ zone, fault, onZone }: { zone: string; fault: string | undefined; onZone(zone: string): void }) {
  const listId = useId()
  return (
    <>
      <Field
        label="Time zone"
        value={zone}
        list={listId}
        autoComplete="off"
        spellCheck={false}
        error={fault}
        hint="Times without an offset are read in it, and all times are shown in it."
        onChange={(e) => onZone(e.target.value)}
      />
      <datalist id={listId}>
        {Intl.supportedValuesOf('timeZone').map((z) => (
          <option key={z} value={z} />
        ))}
      </datalist>
    </>
  )
}
