const fewest = 4

/**
 * What is printed of a message when its reader has read parts of it before: a list that stands there again, line by
 * line, becomes one line that says so. Whatever is not in a list is always printed, the dose of the day among it.
 */
export function asBefore(lines: readonly string[], read: ReadonlySet<string>): readonly string[] {
  const printed: string[] = []
  for (let i = 0; i < lines.length; ) {
    const again = lines[i]?.startsWith('• ') ? runOfKnown(lines, i, read) : 0
    if (again >= fewest) printed.push(`(${again} lines as before)`)
    else printed.push(...lines.slice(i, i + Math.max(again, 1)))
    i += Math.max(again, 1)
  }
  return printed
}

function runOfKnown(lines: readonly string[], from: number, read: ReadonlySet<string>): number {
  let last = from - 1
  for (let i = from; i < lines.length && read.has(lines[i] ?? ''); i += 1)
    if (lines[i]?.startsWith('• ')) last = i
  return last + 1 - from
}
