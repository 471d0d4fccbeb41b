import { z } from 'zod'

const Expect = z
  .strictObject({
    disposition: z.enum(['stop', 'refer', 'note', 'continue', 'waiting']).optional(),
    move: z.enum(['start', 'up', 'repeat', 'back', 'rest', 'hold']).optional(),
    /** Any part of the prescription, or null for none. */
    prescription: z.union([z.null(), z.record(z.string(), z.unknown())]).optional(),
    /** Findings that must be among the reasons. */
    because: z.array(z.string()).optional(),
  })
  .refine((expect) => Object.keys(expect).length > 0, 'expect something')

/** A golden scenario: the chart of one athlete, and what must be decided at an instant; `then` asks again later. */
export const Scenario = z.strictObject({
  about: z.string().min(1),
  entries: z.array(z.unknown()).min(1),
  at: z.string(),
  expect: Expect,
  // biome-ignore lint/suspicious/noThenProperty: a field of a file that clinicians read, never awaited
  then: z.array(z.strictObject({ at: z.string(), expect: Expect })).optional(),
})
export type Scenario = z.infer<typeof Scenario>
export type Expect = z.infer<typeof Expect>
