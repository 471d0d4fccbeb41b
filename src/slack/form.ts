import type { ViewSubmitAction } from '@slack/bolt'
import type { ZodType } from 'zod'
import type { Refusal } from '../rules/decision.ts'

type State = ViewSubmitAction['view']['state']['values']

/** What was typed into a modal, by the name of the field. Numbers arrive as text and are checked again below. */
export type Form = {
  text(name: string): string | undefined
  number(name: string): number | undefined
  choice(name: string): string | undefined
  choices(name: string): readonly string[] | undefined
  /** The account of a person of the workspace, and accounts of several. */
  account(name: string): string | undefined
  accounts(name: string): readonly string[]
  channel(name: string): string | undefined
  day(name: string): string | undefined
  time(name: string): string | undefined
}

export function readForm(state: State): Form {
  const field = (name: string) => state[name]?.[name]
  const text = (name: string) => field(name)?.value ?? undefined
  return {
    text,
    number: (name) => (text(name) === undefined ? undefined : Number(text(name))),
    choice: (name) => field(name)?.selected_option?.value,
    choices: (name) => field(name)?.selected_options?.map((option) => option.value),
    account: (name) => field(name)?.selected_user ?? undefined,
    accounts: (name) => field(name)?.selected_users ?? [],
    channel: (name) => field(name)?.selected_conversation ?? undefined,
    day: (name) => field(name)?.selected_date ?? undefined,
    time: (name) => field(name)?.selected_time ?? undefined,
  }
}

/** A refusal at the field it is about, or at the first field when it is about the whole; what was typed stays. */
export function errorsFor(refusal: Refusal, view: ViewSubmitAction['view']) {
  const fields = view.blocks
    .filter((block) => block.type === 'input')
    .flatMap((block) => block.block_id ?? [])
  const wanted = refusal.field?.split('.').at(-1)
  const at = fields.find((name) => name === refusal.field || name === wanted) ?? fields[0] ?? 'form'
  return { response_action: 'errors' as const, errors: { [at]: refusal.words } }
}

/** What a form or a button carries about itself; a refusal when somebody else wrote it. */
export function aboutFrom<T>(schema: ZodType<T>, text: string | undefined): T | Refusal {
  const damaged = { refused: 'damaged', words: 'This form is out of date. Please open it again.' }
  try {
    const parsed = schema.safeParse(JSON.parse(text ?? ''))
    return parsed.success ? parsed.data : damaged
  } catch {
    return damaged
  }
}
