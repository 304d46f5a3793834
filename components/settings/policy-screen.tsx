'use client'
import { useState } from 'react'
import { parseAsInteger, useQueryState } from 'nuqs'
import { Button } from '@/components/ui/button'
import { asSentences } from '@/components/ui/fetch-json'
import { useUnitSystem } from '@/components/ui/preferences'
import { ErrorState, Skeleton } from '@/components/ui/states'
import { useLocalText } from '@/components/ui/use-local-text'
import { defaultPolicy, policySchema } from '@/lib/condition'
import type { PolicyVersionJson } from '@/lib/contract/settings'
import { EdgeStrip } from './edge-strip'
import { PolicyAside } from './policy-aside'
import { changesBetween, faultsOf, POLICY_GROUPS, valueAt, withTyped, type PolicyGroup, type PolicyValues } from './policy-draft'
import { PolicyField } from './policy-field'
import { PolicyHistory } from './policy-history'
import { PolicyRows, ROW_KINDS } from './policy-rows'
import { ReassessmentBand } from './reassessment-band'
import { usePolicy } from './use-policy'
import css from './policy.module.css'

const OPEN = new Set(['edges', 'edgesAbove75', 'pRules', 'hold'])

/** Edges, rules and everything else of the engine; what a change would reclassify; versions. */
export function PolicyScreen() {
  const policy = usePolicy()
  const [job, setJob] = useQueryState('job', parseAsInteger)
  if (policy.isError && !policy.data)
    return <ErrorState {...asSentences(policy.error)} action={<Button onClick={() => void policy.refetch()}>Try again</Button>} />
  if (!policy.data)
    return (
      <div className={css.bones} aria-busy="true">
        {[0, 1, 2, 3].map((i) => (
          <Skeleton key={i} height={48} />
        ))}
      </div>
    )
  return (
    <>
      {job !== null && <ReassessmentBand jobId={job} onClose={() => void setJob(null)} />}
      <PolicyForm key={policy.data.version} inForce={policy.data} onSaved={(id) => void setJob(id)} />
    </>
  )
}

function PolicyForm({ inForce, onSaved }: { inForce: PolicyVersionJson; onSaved(jobId: number): void }) {
  const [stored] = useState(() => readValues(inForce))
  const [values, setValues] = useState<PolicyValues>(stored)
  const [system] = useUnitSystem()
  const faults = faultsOf(values, system)
  const changes = changesBetween(stored, values, system).filter((c) => c.path !== 'procedureNo')
  const put = (path: string, value: unknown) => setValues((v) => withTyped(v, stored, path, value, system))
  return (
    <div className={css.policy}>
      <div className={css.groups}>
        <p className={css.lead}>
          Edges and rules are your utility&apos;s policy, not a standard. A change lets no splice fall from urgent or critical: only new
          readings or an engineer with a reason do that.
        </p>
        {POLICY_GROUPS.map((g) => (
          <Group
            key={g.key}
            group={g}
            values={values}
            faults={faults}
            changed={changes.filter((c) => g.words.some((w) => w.path === c.path)).length}
            onValue={put}
          />
        ))}
        <PolicyHistory inForce={inForce.version} onUse={(version) => setValues(readValues(version))} />
      </div>
      <PolicyAside
        inForce={inForce}
        values={values}
        changes={changes}
        faults={faults}
        onReset={() => setValues(stored)}
        onSaved={onSaved}
      />
      {changes.length > 0 && (
        <p className={css.jump}>
          {changes.length} changed
          <Button asChild size="small">
            <a href="#change">See what it changes</a>
          </Button>
        </p>
      )}
    </div>
  )
}

function Group({
  group,
  values,
  faults,
  changed,
  onValue,
}: {
  group: PolicyGroup
  values: PolicyValues
  faults: ReadonlyMap<string, string>
  changed: number
  onValue(path: string, value: unknown): void
}) {
  const local = useLocalText()
  const faulty = [...faults.keys()].some((path) => path === group.key || path.startsWith(`${group.key}.`))
  return (
    <details className={css.group} open={OPEN.has(group.key) || undefined}>
      <summary>
        <h2>{local(group.title)}</h2>
        {changed > 0 && <span className={css.changed}>{changed} changed</span>}
        {faulty && <span className={css.faulty}>needs correcting</span>}
      </summary>
      {group.key === 'edges' && !faulty && <EdgeStrip edges={values.edges} />}
      {faults.get(group.key) && (
        <p className={css.groupFault} role="alert">
          {faults.get(group.key)}
        </p>
      )}
      <div className={css.fields}>
        {group.words.map((w) =>
          ROW_KINDS[w.path] ? (
            <div key={w.path} className={css.wideField}>
              <h3>{local(w.label)}</h3>
              <p className={css.meaning}>{local(w.meaning)}</p>
              <PolicyRows path={w.path} rows={rowsAt(values, w.path)} faults={faults} onRows={(rows) => onValue(w.path, rows)} />
            </div>
          ) : (
            <PolicyField
              key={w.path}
              word={w}
              value={valueAt(values, w.path)}
              standard={valueAt(defaultPolicy, w.path)}
              fault={faults.get(w.path)}
              onValue={(value) => onValue(w.path, value)}
            />
          ),
        )}
      </div>
    </details>
  )
}

const rowsAt = (values: PolicyValues, path: string): Record<string, unknown>[] => {
  const rows = valueAt(values, path)
  return Array.isArray(rows) ? (rows as Record<string, unknown>[]) : []
}

/** What is stored, with the defaults of settings that are newer than it. */
const readValues = (version: PolicyVersionJson): PolicyValues => {
  const read = policySchema.safeParse(version.values)
  return read.success ? read.data : policySchema.parse({})
}
