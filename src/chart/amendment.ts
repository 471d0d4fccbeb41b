import { z } from 'zod'
import { signed, Words } from './signing.ts'

export const Amendment = z.object({
  ...signed,
  kind: z.literal('amendment'),
  strikes: z.string(),
  words: Words.min(1),
})
