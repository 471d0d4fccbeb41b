import { appMethods } from './api-app.ts'
import { chatMethods } from './api-chat.ts'
import { conversationMethods } from './api-conversations.ts'
import { fileMethods } from './api-files.ts'
import type { Method } from './api-method.ts'
import { peopleMethods } from './api-people.ts'
import { viewMethods } from './api-views.ts'

/** Everything that can be called; anything else is `unknown_method`. */
export const methods: ReadonlyMap<string, Method> = new Map<string, Method>(
  Object.entries({
    ...appMethods,
    ...chatMethods,
    ...conversationMethods,
    ...fileMethods,
    ...peopleMethods,
    ...viewMethods,
  }),
)
