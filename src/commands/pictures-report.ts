import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { parseArgs } from 'node:util'
import type { RenderParameters } from 'pdfjs-dist/types/src/display/api.js'

const usage = 'pictures-report FILE.pdf [--out .pictures]   renders each page of a report as a PNG picture'
/** Twice the size of the screen, so that small print stays legible. */
const scale = 2

/** Renders the pages of a PDF as PNG pictures, with packages of the registry only. */
export async function run(argv: readonly string[], out: (line: string) => void): Promise<number> {
  const options = { out: { type: 'string', default: '.pictures' } } as const
  const { positionals, values } = parseArgs({ args: [...argv], allowPositionals: true, options })
  const [file] = positionals
  if (file === undefined) {
    out(usage)
    return 2
  }
  mkdirSync(values.out, { recursive: true })
  const pages = await renderPages(new Uint8Array(readFileSync(file)))
  for (const [i, png] of pages.entries()) {
    const path = join(values.out, `${basename(file, '.pdf')}-${i + 1}.png`)
    writeFileSync(path, png)
    out(path)
  }
  return 0
}

/** Each page of a PDF as a PNG. */
export async function renderPages(pdf: Uint8Array): Promise<readonly Buffer[]> {
  const { createCanvas } = await import('@napi-rs/canvas')
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs')
  const loading = getDocument({ data: new Uint8Array(pdf), verbosity: 0 })
  const document = await loading.promise
  const pictures: Buffer[] = []
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number)
    const viewport = page.getViewport({ scale })
    const canvas = createCanvas(viewport.width, viewport.height)
    const drawing: RenderParameters = { canvas: canvas as unknown as RenderParameters['canvas'], viewport }
    await page.render(drawing).promise
    pictures.push(canvas.toBuffer('image/png'))
  }
  await loading.destroy()
  return pictures
}
