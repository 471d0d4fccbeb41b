/** Whether the words of this error are meant for whoever acts: a bug of ours is a kind of its own. */
export function saysWhatIsWrong(error: unknown): error is Error {
  return error instanceof Error && (error.constructor === Error || error instanceof RangeError)
}
