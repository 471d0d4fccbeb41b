const form = /^[A-Za-z0-9][A-Za-z0-9._-]{0,119}$/

/** A subject as it may name a chart and its file: letters, digits, `.`, `_`, `-`. Anything else is a bug, and throws. */
export function checkedSubject(subject: string): string {
  if (!form.test(subject))
    throw new TypeError(`not a subject of a chart: ${JSON.stringify(subject.slice(0, 60))}`)
  return subject
}
