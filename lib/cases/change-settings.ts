import type { SettingsJson } from '@/lib/contract/settings'
import { ok, type Result } from '@/lib/result/result'
import { writeAudit } from '@/lib/store/audit'
import type { Scope } from '@/lib/store/scope'
import { getSettings, putSettings } from '@/lib/store/settings'
import { raiseDataVersion } from '@/lib/store/state'
import { inTransaction } from '@/lib/store/transaction'
import { isTimeZone } from '@/lib/units/time'
import { outOfScope, refuse, type CaseError } from './problem'

/** Changes the settings given and leaves the others. */
export async function changeSettings(scope: Scope, changed: Partial<SettingsJson>, actor: string): Promise<Result<SettingsJson, CaseError>> {
  if (changed.time_zone !== undefined && !isTimeZone(changed.time_zone)) {
    return refuse('invalid', `There is no time zone ${changed.time_zone}.`, 'Give its name as in America/Denver.')
  }
  const letters = Object.values(changed.phase_letters ?? {}).map((letter) => letter.trim().toLowerCase())
  if (letters.includes('') || new Set(letters).size !== letters.length) {
    return refuse('invalid', 'Each phase needs a letter or word of its own.', 'Give three different ones.')
  }
  if (changed.peak_periods?.some(({ from, to }) => from === to)) {
    return refuse('invalid', 'A peak-load period ends when it begins.', 'Give it another end, or leave it out.')
  }
  return inTransaction(async (tx) => {
    const before = await getSettings(scope, tx)
    const written = await putSettings(scope, changed, tx)
    if (written === 0 && Object.keys(changed).length > 0) return outOfScope()
    const after = await getSettings(scope, tx)
    await writeAudit(scope, { actor, action: 'settings.changed', subject: { kind: 'settings', id: null }, detail: { before, after } }, tx)
    await raiseDataVersion(scope, tx)
    return ok(after)
  })
}
