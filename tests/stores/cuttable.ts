import { connect, createServer, type Socket } from 'node:net'

/** A wire to a port of this machine that can be cut, or lose what comes back. */
export async function cuttableWire(port: number) {
  const sockets = new Set<Socket>()
  let isCut = false
  let losesAnswers = false

  const server = createServer((near) => {
    if (isCut) return near.destroy()
    const far = connect(port, '127.0.0.1')
    for (const socket of [near, far]) {
      sockets.add(socket)
      socket.on('error', () => {})
      socket.on('close', () => {
        sockets.delete(socket)
        near.destroy()
        far.destroy()
      })
    }
    near.on('data', (bytes) => far.write(bytes))
    far.on('data', (bytes) => {
      if (losesAnswers) near.destroy()
      else near.write(bytes)
    })
    return undefined
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))

  return {
    port: (server.address() as { port: number }).port,
    cut() {
      isCut = true
      for (const socket of sockets) socket.destroy()
    },
    mend() {
      isCut = false
      losesAnswers = false
    },
    /** What is asked arrives; the answer to it does not, and the connection is gone. */
    loseAnswers() {
      losesAnswers = true
    },
    async end() {
      for (const socket of sockets) socket.destroy()
      await new Promise((resolve) => server.close(resolve))
    },
  }
}
