import { z } from 'zod'
import type { Clinic } from '../chart/clinic.ts'
import { type ClinicSettings, settingsIn } from '../chart/clinic-settings.ts'
import { settingsFault, tightened } from '../rules/clinic-settings.ts'
import { context, type Modal, modal, numberInput, section } from './blocks.ts'
import { clinicScreen } from './clinic.ts'
import { timePicker } from './pickers.ts'
import { reads } from './reading.ts'

/** Every setting that may be tightened, as it stands now and as the file has it. */
export function settingsModal(file: Clinic, now: Clinic): Modal {
  const [base, stands] = [settingsIn(file), settingsIn(now)]
  return modal({ door: 'settings', title: 'Tighten settings', submit: 'Save', about: {} }, [
    section('What stands in clinic.json may be tightened here and set back to it, never loosened past it.'),
    ...tightened.map(({ name, tighter, words }) =>
      numberInput({
        name,
        label: words,
        hint: `${tighter === 'less' ? 'At most' : 'At least'} ${base[name]}, as in clinic.json.`,
        low: 0,
        high: 10_000,
        initial: stands[name],
      }),
    ),
    timePicker(
      {
        name: 'quietFrom',
        label: 'Quiet hours from',
        hint: `clinic.json: ${base.quietFrom} to ${base.quietUntil}; may be shorter.`,
      },
      stands.quietFrom,
    ),
    timePicker({ name: 'quietUntil', label: 'Quiet hours until' }, stands.quietUntil),
    context(
      'In force at once for whatever is decided from now on. A call that rings already keeps its time.',
    ),
  ])
}

export const settingsRead = reads(z.object({}), async (at, form) => {
  const file = at.doorway.desk.clinic
  const typed: Record<string, unknown> = {
    ...Object.fromEntries(tightened.map(({ name }) => [name, form.number(name)])),
    quietFrom: form.time('quietFrom'),
    quietUntil: form.time('quietUntil'),
  }
  const fault = settingsFault(file, typed as ClinicSettings)
  if (fault) return fault
  const otherwise = Object.entries(settingsIn(file)).filter(([name, value]) => typed[name] !== value)
  const settings = Object.fromEntries(otherwise.map(([name]) => [name, typed[name]]))
  return { hands: [{ kind: 'settings', settings }], under: () => clinicScreen(at) }
})
