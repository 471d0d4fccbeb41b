/** Names for ids that stand in a text; without one the id itself is shown. */
export type NameOf = (id: string) => string | undefined

/** The mark-up of a text taken off: mentions by name, links by label, escaped signs as they are read. */
export function plain(text: string, nameOf: NameOf = () => undefined): string {
  return text
    .replace(/<([@#!])([^>|]+)(?:\|([^>]*))?>/g, (_, sign: string, id: string, label?: string) =>
      sign === '!' ? `@${label || id}` : `${sign}${label || nameOf(id) || id}`,
    )
    .replace(/<([^>|]+)\|([^>]*)>/g, '$2 ($1)')
    .replace(/<((?:https?|mailto|tel):[^>]+)>/g, '$1')
    .replace(/(?<![\p{L}\p{N}*_~])([*_~])(?=\S)([^\n]*?\S)\1(?![\p{L}\p{N}*_~])/gu, '$2')
    .replaceAll('```', '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&')
}

/** A text object or a bare string, as it is read. Only mrkdwn is read as mark-up. */
export function words(text: unknown, nameOf: NameOf): string {
  if (typeof text === 'string') return plain(text, nameOf)
  const object = text as { type?: string; text?: string } | undefined
  return object?.type === 'plain_text' ? (object.text ?? '') : plain(object?.text ?? '', nameOf)
}
