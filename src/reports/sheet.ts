import { createRequire } from 'node:module'
import PDFDocument from 'pdfkit'
import type { Instant } from '../chart/day.ts'

export type Paper = 'A4' | 'LETTER'

export type Pen = PDFKit.PDFDocument

/** A table as it stands on the page; `widths` are shares of the whole. */
export type Grid = {
  readonly widths: readonly number[]
  readonly head: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/**
 * Pages with tagged text in a real, embedded font. Everything is laid out from the top down; a row, a paragraph or a
 * picture that does not fit begins a new page whole.
 */
export type Sheet = {
  heading(text: string, level?: 1 | 2): void
  paragraph(text: string, style?: Style): void
  grid(grid: Grid): void
  /** `alt` is what somebody hears who cannot see the picture. */
  picture(heightPt: number, alt: string, draw: (pen: Pen, box: Box) => void): void
  /** How many pages there are so far. */
  pages(): number
  /** Numbers the pages and closes them. `foot` stands at the left of every page. */
  finish(foot: string): Promise<Uint8Array>
}

export type Style = 'plain' | 'strong' | 'small'
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

const require = createRequire(import.meta.url)
const plain = 'plain'
const strong = 'strong'
const marginPt = 42
const footPt = 30
const ink = '#1a1a1a'
const rule = '#9a9a9a'
const sizes = { plain: 8.5, strong: 8.5, small: 7 } as const

export function openSheet(about: { paper: Paper; title: string; author: string; now: Instant }): Sheet {
  const pen = new PDFDocument({
    size: about.paper,
    margins: { top: marginPt, bottom: marginPt, left: marginPt, right: marginPt },
    bufferPages: true,
    tagged: true,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: { Title: about.title, Author: about.author, CreationDate: new Date(about.now) },
  })
  pen.registerFont(plain, require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf'))
  pen.registerFont(strong, require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf'))
  const chunks: Uint8Array[] = []
  pen.on('data', (chunk: Uint8Array) => chunks.push(chunk))
  const body = pen.struct('Document')
  pen.addStructure(body)
  const width = pen.page.width - 2 * marginPt
  const bottom = pen.page.height - marginPt - footPt
  let y = marginPt

  function room(heightPt: number): void {
    if (y + heightPt <= bottom) return
    pen.addPage()
    y = marginPt
  }

  /** Text under one tag; moves down. */
  function write(tag: string, text: string, font: string, size: number, gap: number): void {
    pen.font(font).fontSize(size)
    const height = pen.heightOfString(text, { width })
    room(height)
    body.add(pen.struct(tag, {}, () => void pen.fillColor(ink).text(text, marginPt, y, { width })))
    y += height + gap
  }

  return {
    heading(text, level = 2) {
      const size = level === 1 ? 17 : 10.5
      // A heading never stands alone at the foot of a page.
      room(size + 34)
      if (y > marginPt) y += level === 1 ? 0 : 7
      write(level === 1 ? 'H1' : 'H2', text, strong, size, 3)
    },

    paragraph(text, style = 'plain') {
      write('P', text, style === 'strong' ? strong : plain, sizes[style], 3)
    },

    grid({ widths, head, rows }) {
      const whole = widths.reduce((sum, share) => sum + share, 0)
      const columns = widths.map((share) => (share / whole) * width)
      const table = pen.struct('Table')
      body.add(table)
      const row = (cells: readonly string[], tag: 'TH' | 'TD') => {
        pen.font(tag === 'TH' ? strong : plain).fontSize(8)
        const heights = cells.map((cell, i) => pen.heightOfString(cell, { width: (columns[i] ?? 0) - 8 }))
        const height = Math.max(...heights, 8) + 4
        room(height)
        const line = pen.struct('TR')
        table.add(line)
        let x = marginPt
        for (const [i, cell] of cells.entries()) {
          const box = { width: (columns[i] ?? 0) - 8 }
          const at = x
          line.add(pen.struct(tag, {}, () => void pen.fillColor(ink).text(cell, at, y + 2, box)))
          x += columns[i] ?? 0
        }
        line.end()
        y += height
        artifact(pen, () => stroke(pen, y, width))
      }
      if (head.length > 0) row(head, 'TH')
      for (const cells of rows) row(cells, 'TD')
      table.end()
      y += 3
    },

    picture(heightPt, alt, draw) {
      room(heightPt)
      const box = { x: marginPt, y, width, height: heightPt }
      body.add(pen.struct('Figure', { alt }, () => draw(pen.font(plain).fontSize(7), box)))
      y += heightPt + 4
    },

    pages: () => pen.bufferedPageRange().count,

    async finish(foot) {
      body.end()
      const { start, count } = pen.bufferedPageRange()
      for (let page = start; page < start + count; page += 1) {
        pen.switchToPage(page)
        // Below the margin: without this the pen would begin a new page.
        pen.page.margins.bottom = 0
        const at = pen.page.height - marginPt
        artifact(pen, () => {
          pen.font(plain).fontSize(7).fillColor(ink)
          pen.text(foot, marginPt, at, { width: width - 70, lineBreak: false })
          pen.text(`page ${page + 1} of ${count}`, marginPt, at, { width, align: 'right', lineBreak: false })
        })
      }
      const done = new Promise<void>((resolve) => pen.on('end', resolve))
      pen.end()
      await done
      return Buffer.concat(chunks)
    },
  }
}

/** Lines and page numbers: on the page, and not part of what is read aloud. */
function artifact(pen: Pen, draw: () => void): void {
  pen.markContent('Artifact')
  draw()
  pen.endMarkedContent()
}

function stroke(pen: Pen, y: number, width: number): void {
  pen
    .moveTo(marginPt, y)
    .lineTo(marginPt + width, y)
    .lineWidth(0.4)
    .strokeColor(rule)
    .stroke()
}
