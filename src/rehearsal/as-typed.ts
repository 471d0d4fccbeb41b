import { instantAt } from '../chart/day.ts'
import type { Element } from './block-limits.ts'
import { player } from './cast.ts'
import { type Answer, optionsOf } from './form-values.ts'
import type { Stage } from './stage.ts'

/** What somebody typed or picked for an element, as the element takes it. @throws when it names nothing there */
export function asTyped(stage: Stage, who: string, element: Element, typed: readonly string[]): Answer {
  const [one = ''] = typed
  switch (element.type) {
    case 'multi_static_select':
    case 'checkboxes':
      return typed.map((name) => optionMeant(element, name))
    case 'static_select':
    case 'radio_buttons':
    case 'overflow':
      return one === '' ? null : optionMeant(element, one)
    case 'users_select':
      return one === '' ? null : account(stage, one)
    case 'multi_users_select':
      return typed.map((name) => account(stage, name))
    case 'channels_select':
    case 'conversations_select':
      return one === '' ? null : room(stage, one)
    case 'datetimepicker':
      return one === '' ? null : seconds(one, player(who).timeZone)
    default:
      return one === '' ? null : one
  }
}

/** The one that is meant among named things: the whole name, else how it begins, else a part of it. */
export function meant<T>(all: readonly T[], nameOf: (one: T) => string, typed: string): readonly T[] {
  const wanted = typed.toLowerCase().replace(/(\.\.\.|…)$/, '')
  const names = (test: (name: string) => boolean) => all.filter((one) => test(nameOf(one).toLowerCase()))
  const ways = [
    names((name) => name === wanted),
    names((name) => name.startsWith(wanted)),
    names((name) => name.includes(wanted)),
  ]
  return ways.find((found) => found.length > 0) ?? []
}

function optionMeant(element: Element, typed: string): string {
  const options = optionsOf(element)
  const exact = options.find((option) => option.value === typed)
  const found = exact ? [exact] : meant(options, (option) => option.text.text, typed)
  if (found.length === 1 && found[0]) return found[0].value
  const offered = options.map((option) => option.text.text).join(' | ')
  throw new Error(
    `"${typed}" is ${found.length > 1 ? 'more than one' : 'none'} of what is offered: ${offered}`,
  )
}

function account({ workspace }: Stage, typed: string): string {
  const people = workspace.people.all()
  const found = people.find((one) => one.id === typed) ?? meant(people, (one) => one.name, typed)[0]
  if (!found) throw new Error(`"${typed}" is nobody here: ${people.map((one) => one.name).join(' | ')}`)
  return found.id
}

function room({ workspace }: Stage, typed: string): string {
  const rooms = workspace.channels.all().filter((one) => one.kind === 'channel' || one.kind === 'private')
  const found = rooms.find((one) => one.id === typed) ?? meant(rooms, (one) => one.name, typed)[0]
  if (!found) throw new Error(`"${typed}" is no channel here: ${rooms.map((one) => one.name).join(' | ')}`)
  return found.id
}

function seconds(typed: string, zone: string): string {
  const [, day, time] = /^(\d{4}-\d{2}-\d{2})[ T](\d{2}:\d{2})/.exec(typed) ?? []
  if (!day || !time) throw new Error(`"${typed}" is not a day and a time, such as 2026-03-16 06:30`)
  return String(Date.parse(instantAt(day, time, zone)) / 1000)
}
