import type { KnownBlock } from '@slack/types'
import type { Family, FamilySettings } from '../chart/family.ts'
import { choicesOf, inWords } from '../rules/family-choice.ts'
import { header, option, section } from './blocks.ts'
import type { Form } from './form.ts'
import { selectFrom } from './pickers.ts'

/** The rules of pain of the tissue, each with its default, its source and its label; only what can be chosen. */
export function settingFields(family: Family, before: FamilySettings | undefined): KnownBlock[] {
  const open = choicesOf(family).filter(({ allowed }) => allowed.length > 1)
  const fields = open.map(({ setting, words, value, allowed, source, label, why }) => {
    const kept = before?.[setting]
    const chosen = kept !== undefined && allowed.includes(kept) ? kept : value
    return selectFrom(
      {
        name: nameOf(setting),
        label: `${words.charAt(0).toUpperCase()}${words.slice(1)}`,
        hint: `Default ${inWords(value)} [${source}, ${label}].${why ? ` ${why}` : ''}`,
      },
      allowed.map((one) => option(String(one), `${inWords(one)}${one === value ? ' (default)' : ''}`)),
      String(chosen),
    )
  })
  const lead =
    'Set to the stricter where sources disagree. Anything looser is asked about before it is signed.'
  return [header('Rules of pain'), section(lead), ...fields]
}

/** What was chosen otherwise than the default; the rules refuse what the tissue does not allow. */
export function settingsFrom(form: Form, family: Family): Record<string, unknown> {
  const chosen = choicesOf(family).flatMap(({ setting, value, allowed }) => {
    const said = form.choice(nameOf(setting))
    const found = allowed.find((one) => String(one) === said)
    return said === undefined || found === value ? [] : [[setting, found ?? said] as const]
  })
  return Object.fromEntries(chosen)
}

/** The name of the field is the path at which the rules refuse it. */
function nameOf(setting: string): string {
  return `settings.${setting}`
}
