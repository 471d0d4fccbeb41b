import type { KnownBlock } from '@slack/types'
import type { Person } from '../chart/roster.ts'
import type { Modal } from './blocks.ts'
import type { Doorway } from './door.ts'

/** What a command shows: a form to fill in, or an answer that only the asker sees. */
export type Shown = { readonly modal: Modal } | { readonly text: string; readonly blocks?: KnownBlock[] }

/** `said` is what was typed after the name. */
export type Command = (doorway: Doorway, person: Person, said: string) => Promise<Shown>
