import PDFDocument from 'pdfkit'
import type { Instant } from '../chart/day.ts'
import { type Block, typesetter } from './paper/block.ts'
import { firstFace, type Weight } from './paper/faces.ts'

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
 * picture that does not fit begins a new page whole, under the head of its table.
 */
export type Sheet = {
  heading(text: string, level?: 1 | 2): void
  paragraph(text: string, style?: Style): void
  grid(grid: Grid): void
  /** `alt` is what somebody hears who cannot see the picture. */
  picture(heightPt: number, alt: string, draw: (pen: Pen, box: Box) => void): void
  /** How many pages there are so far. */
  pages(): number
  /** Code points that stand in place of letters which no font draws, so far. */
  undrawn(): readonly string[]
  /** Numbers the pages and closes them. `foot` stands at the left of every page. */
  finish(foot: string): Promise<Uint8Array>
}

type Written = { readonly tag: string; readonly block: Block; readonly gap: number }

export type Style = 'plain' | 'strong' | 'small'
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

const marginPt = 42
const footPt = 30
const ink = '#1a1a1a'
const rule = '#9a9a9a'
const sizes = { plain: 8.5, strong: 8.5, small: 7.5 } as const
const cellSize = 8
const footSize = 7
const pictureSize = 7

/** `scale` makes every letter larger or smaller; 1 is the smallest that reads well on paper. */
type About = {
  readonly paper: Paper
  readonly title: string
  readonly author: string
  readonly now: Instant
  readonly scale?: number
}

export function openSheet(about: About): Sheet {
  const { paper, title, author, now, scale = 1 } = about
  const pen = new PDFDocument({
    size: paper,
    margins: { top: marginPt, bottom: marginPt, left: marginPt, right: marginPt },
    bufferPages: true,
    tagged: true,
    pdfVersion: '1.7',
    lang: 'en',
    displayTitle: true,
    info: { Title: title, Author: author, CreationDate: new Date(now) },
  })
  const setter = typesetter(pen)
  const chunks: Uint8Array[] = []
  pen.on('data', (chunk: Uint8Array) => chunks.push(chunk))
  const body = pen.struct('Document')
  pen.addStructure(body)
  const width = pen.page.width - 2 * marginPt
  const bottom = pen.page.height - marginPt - footPt
  let y = marginPt
  const headings: (Written & { readonly before: number })[] = []

  /** True when a new page was begun. */
  function room(heightPt: number): boolean {
    if (y + heightPt <= bottom) return false
    pen.addPage()
    y = marginPt
    return true
  }

  function block(text: string, weight: Weight, sizePt: number, widthPt = width): Block {
    return setter.block(text, { weight, sizePt: sizePt * scale, widthPt })
  }

  function put({ tag, block, gap }: Written): void {
    body.add(tagged(pen, tag, block, { x: marginPt, y }))
    y += block.heightPt + gap
  }

  /** Makes room for what comes next together with the headings over it, so that none stands alone at the foot of a page. */
  function settle(heightPt: number): void {
    const above = headings.splice(0)
    room(above.reduce((sum, one) => sum + one.before + one.block.heightPt + one.gap, heightPt))
    for (const one of above) {
      if (y > marginPt) y += one.before
      put(one)
    }
  }

  return {
    heading(text, level = 2) {
      const tag = `H${level}`
      const size = level === 1 ? 17 : 10.5
      headings.push({ tag, block: block(text, 'strong', size), gap: 3, before: level === 1 ? 0 : 7 })
    },

    paragraph(text, style = 'plain') {
      const weight = style === 'strong' ? 'strong' : 'plain'
      const written = { tag: 'P', block: block(text, weight, sizes[style]), gap: 3 }
      // Words in bold stand over a table, and stay with it.
      if (style === 'strong') {
        headings.push({ ...written, before: 0 })
        return
      }
      settle(written.block.heightPt)
      put(written)
    },

    grid({ widths, head, rows }) {
      const whole = widths.reduce((sum, share) => sum + share, 0)
      const columns = widths.map((share) => (share / whole) * width)
      const lefts = columns.map((_, i) => columns.slice(0, i).reduce((sum, column) => sum + column, marginPt))
      const laid = (cells: readonly string[], weight: Weight) => {
        const blocks = cells.map((cell, i) => block(cell, weight, cellSize, (columns[i] ?? 0) - 8))
        return { blocks, heightPt: Math.max(...blocks.map((one) => one.heightPt), 8) + 4 }
      }
      const heads = head.length > 0 ? laid(head, 'strong') : undefined
      const headAgain = () => {
        if (!heads) return
        artifact(pen, () => {
          for (const [i, one] of heads.blocks.entries()) one.draw(lefts[i] ?? 0, y + 2)
        })
        y += heads.heightPt
        artifact(pen, () => stroke(pen, y, width))
      }
      const row = ({ blocks, heightPt }: ReturnType<typeof laid>, tag: 'TH' | 'TD') => {
        if (room(heightPt) && tag === 'TD') headAgain()
        const line = pen.struct('TR')
        table.add(line)
        for (const [i, one] of blocks.entries())
          line.add(tagged(pen, tag, one, { x: lefts[i] ?? 0, y: y + 2 }))
        line.end()
        y += heightPt
        artifact(pen, () => stroke(pen, y, width))
      }
      const lines = rows.map((cells) => laid(cells, 'plain'))
      settle((heads?.heightPt ?? 0) + (lines[0]?.heightPt ?? 0))
      const table = pen.struct('Table')
      body.add(table)
      if (heads) row(heads, 'TH')
      for (const line of lines) row(line, 'TD')
      table.end()
      y += 3
    },

    picture(heightPt, alt, draw) {
      settle(heightPt)
      const box = { x: marginPt, y, width, height: heightPt }
      setter.inFont({ face: firstFace, weight: 'plain', sizePt: pictureSize })
      body.add(pen.struct('Figure', { alt }, () => draw(pen, box)))
      y += heightPt + 4
    },

    pages: () => pen.bufferedPageRange().count,
    undrawn: setter.undrawn,

    async finish(foot) {
      if (headings.length > 0) settle(0)
      body.end()
      const { start, count } = pen.bufferedPageRange()
      for (let page = start; page < start + count; page += 1) {
        pen.switchToPage(page)
        // Below the margin: without this the pen would begin a new page.
        pen.page.margins.bottom = 0
        const at = pen.page.height - marginPt
        artifact(pen, () => {
          pen.fillColor(ink)
          block(foot, 'plain', footSize / scale, width - 70).draw(marginPt, at)
          const number = `page ${page + 1} of ${count}`
          setter.inFont({ face: firstFace, weight: 'plain', sizePt: footSize })
          pen.text(number, marginPt, at, { width, align: 'right', lineBreak: false })
        })
      }
      const done = new Promise<void>((resolve) => pen.on('end', resolve))
      pen.end()
      await done
      return Buffer.concat(chunks)
    },
  }
}

/** Text with its tag. Where it is drawn in another order than it is read, the tag carries it as it is read. */
function tagged(pen: Pen, tag: string, block: Block, { x, y }: { x: number; y: number }) {
  const spoken = block.actual === undefined ? {} : { actual: block.actual }
  return pen.struct(tag, spoken, () => {
    pen.fillColor(ink)
    block.draw(x, y)
  })
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
