import { defineConfig } from 'vitest/config'

/** Under mutation only what speaks about rules and science runs; generated histories would take hours. */
export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/rules/**/*.test.ts', 'tests/science/**/*.test.ts', 'tests/scenarios.test.ts'],
    exclude: ['tests/rules/properties.test.ts'],
    testTimeout: 60_000,
  },
})
