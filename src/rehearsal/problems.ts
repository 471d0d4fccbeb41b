import type { z } from 'zod'

/** One thing that the platform would refuse, and where: the pointer is a JSON pointer into what was checked. */
export type Problem = {
  readonly pointer: string
  readonly code: string
  readonly message: string
}

export function problem(path: readonly PropertyKey[], code: string, message: string): Problem {
  return {
    pointer: path.map((step) => `/${String(step)}`).join(''),
    code,
    message,
  }
}

export function problemsOf(
  result: z.ZodSafeParseResult<unknown>,
  under: readonly PropertyKey[] = [],
): Problem[] {
  return result.success ? [] : result.error.issues.flatMap((issue) => fromIssue(issue, under))
}

function fromIssue(issue: z.core.$ZodIssue, under: readonly PropertyKey[]): Problem[] {
  const path = [...under, ...issue.path]
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) =>
        problem([...path, key], 'invalid_additional_property', `invalid additional property: ${key}`),
      )
    case 'too_big':
      return [problem(path, issue.origin === 'array' ? 'too_many' : 'too_long', issue.message)]
    case 'too_small':
      return [problem(path, issue.origin === 'array' ? 'too_few' : 'too_short', issue.message)]
    case 'invalid_union':
      return [problem(path, 'unsupported_type', issue.message)]
    case 'invalid_type':
      return [problem(path, issue.input === undefined ? 'missing' : 'invalid_type', issue.message)]
    case 'custom':
      return [problem(path, String(issue.params?.code ?? 'invalid_value'), issue.message)]
    default:
      return [problem(path, 'invalid_value', issue.message)]
  }
}
