import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, describe, expect, test } from 'vitest'
import { readChart } from '../../src/chart/chart.ts'
import { renderPages } from '../../src/commands/pictures-report.ts'
import { criteriaFound } from '../../src/reports/criteria-lines.ts'
import { progressReport } from '../../src/reports/progress-report.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
let pdf: Uint8Array
let read: Read
beforeAll(async () => {
  record = await twoWeeks()
  pdf = await progressReport(record.chart, record.team, record.now, { for: 'Dr Example' })
  read = await readBack(pdf)
})

type Tag = { readonly role?: string; readonly alt?: string; readonly children?: readonly Tag[] }
type Read = {
  readonly pages: readonly string[]
  readonly tags: readonly Tag[]
  readonly size: readonly number[]
  readonly about: { readonly [name: string]: unknown }
  readonly marked: boolean
  readonly lang: string | undefined
  readonly fonts: readonly string[]
}

/** What another program finds in it. */
async function readBack(bytes: Uint8Array): Promise<Read> {
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0 })
  const document = await loading.promise
  const pages: string[] = []
  const tags: Tag[] = []
  let size: readonly number[] = []
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number)
    const { items } = await page.getTextContent()
    pages.push(items.map((item) => ('str' in item ? item.str + (item.hasEOL ? ' ' : '') : '')).join(''))
    tags.push((await page.getStructTree()) as Tag)
    size = page.view.map(Math.round)
  }
  const { info } = await document.getMetadata()
  const mark = await document.getMarkInfo()
  const fonts = [
    ...Buffer.from(bytes)
      .toString('latin1')
      .matchAll(/\/BaseFont \/([\w+-]+)/g),
  ].map((m) => m[1] ?? '')
  await loading.destroy()
  const about = info as { [name: string]: unknown }
  return {
    pages,
    tags,
    size,
    about,
    marked: mark?.Marked === true,
    lang: about.Language as string | undefined,
    fonts,
  }
}

const roles = (tag: Tag): readonly string[] => [
  ...(tag.role ? [tag.role] : []),
  ...(tag.children ?? []).flatMap(roles),
]

describe('the progress report, turned back into text', () => {
  const says = (words: string | RegExp) =>
    expect(read.pages.join('\n').replaceAll(/\s+/g, ' ')).toMatch(words)

  test('names the athlete, the injury, the therapist and the reader', () => {
    says('Progress report: Mika Oddvar')
    says('For Dr Example. Treating therapist: Iben Marlow, cover Ravi Thornby.')
    says('tibial stress reaction: distal medial tibia, left. Since 2026-02-12.')
  })

  test('says in words where on the continuum, until when and up to what', () => {
    says(/no running.*\[UNLOADED RUNNING\].*ground running/)
    says(/Cleared by Iben Marlow for unloaded running until 2026-04-12: up to 100 % of body weight carried/)
  })

  test('puts what was prescribed beside what was done, with pain and the answer of the body', () => {
    says(/2026-03-25 1 4 x 1 min at 50 % 4 min at up to 51.5 %, 9 km\/h 0, 2, 0 3.5 flared/)
  })

  test('tells a red flag to its closing and its hold to its lifting', () => {
    says(/2026-03-24 red flag, urgent Bone pain at night/)
    says(/Acknowledged by Iben Marlow\. Closed by Iben Marlow on 2026-03-24: seen in person/)
    says(/Hold lifted by Iben Marlow on 2026-03-24: One-leg stand free of pain/)
  })

  test('carries corrections and the disagreement of the athlete with it', () => {
    says('measure/mika/1 was struck by Iben Marlow on 2026-03-27: Sides swapped.')
    says('The athlete disagrees: I still say 3.')
  })

  test('says who signed, what it is not, and the page of each page', () => {
    says('plan by Iben Marlow on 2026-03-15')
    says('not a diagnosis')
    says('In an emergency: 112')
    for (const [i, page] of read.pages.entries())
      expect(page).toContain(`page ${i + 1} of ${read.pages.length}`)
  })

  test("leaves the athlete's own words out of it", () =>
    expect(read.pages.join()).not.toMatch(/woke me|evil/))

  test('shows the criteria of the next step as they are found, with day and source, and what was signed', async () => {
    const shelf = record.desk.library
    const again = await readBack(await progressReport(record.chart, record.team, record.now, { shelf }))
    const text = again.pages.join(' ').replaceAll(/\s+/g, ' ')
    expect(text).toContain('From the LBPP treadmill to running on the ground')
    expect(text).toMatch(/above 95 % of body weight carried missing vincent-2022-abstract \(read\)/)
    expect(text).toContain(
      'lbpp-to-ground@1 was signed AGAINST it by Iben Marlow on 2026-03-27. For the camp.',
    )
    expect(text).toMatch(/Single hop.* 2026-03-27 135 cm 150 90 %/)
  })
})

describe('the progress report as a document', () => {
  test('is one to two pages on A4, and on Letter too', async () => {
    expect(read.size).toEqual([0, 0, 595, 842])
    expect(read.pages.length).toBeLessThanOrEqual(2)
    const letter = await readBack(
      await progressReport(record.chart, record.team, record.now, { paper: 'LETTER' }),
    )
    expect(letter.size).toEqual([0, 0, 612, 792])
    expect(letter.pages.length).toBeLessThanOrEqual(2)
  })

  test('is tagged: headings, paragraphs, tables with heads, and a figure with words for who cannot see it', () => {
    const all = read.tags.flatMap(roles)
    for (const role of ['H1', 'H2', 'P', 'Table', 'TR', 'TH', 'TD', 'Figure']) expect(all).toContain(role)
    expect(read.marked).toBe(true)
    const figure = JSON.stringify(read.tags).match(/"alt":"([^"]+)"/)?.[1]
    expect(figure).toMatch(/2026-03-19: no answer/)
    expect(figure).toMatch(/2026-03-25: .*run of 4 min at 51.5 % with pain 2/)
  })

  test('carries its own fonts, has a title and a language', () => {
    expect(read.fonts.length).toBeGreaterThanOrEqual(2)
    for (const font of read.fonts) expect(font).toMatch(/^[A-Z]{6}\+DejaVuSansCondensed/)
    expect(read.about.Title).toBe('Progress report: Mika Oddvar')
    expect(read.lang).toBe('en')
  })

  test('is drawn: turned into a picture, it has the ink of the bars', async () => {
    const { createCanvas, loadImage } = await import('@napi-rs/canvas')
    const [first] = await renderPages(pdf)
    const image = await loadImage(first ?? Buffer.alloc(0))
    const canvas = createCanvas(image.width, image.height)
    const pen = canvas.getContext('2d')
    pen.drawImage(image, 0, 0)
    const { data } = pen.getImageData(0, 0, image.width, image.height)
    const greys = data.reduce((sum, value, i) => (i % 4 === 0 && value === 0x8a ? sum + 1 : sum), 0)
    expect(image.width).toBe(1190)
    expect(greys).toBeGreaterThan(2_000)
  })

  test('of a long record stays at two pages, and a word of 3,000 letters does not break it', async () => {
    const long = 'x'.repeat(3000)
    const entries = record.chart.entries.map((entry) =>
      entry.kind === 'escalation-closed' || entry.kind === 'hold-lifted' || entry.kind === 'amendment'
        ? { ...entry, words: long }
        : entry,
    )
    const sessions = Array.from({ length: 60 }, (_, n) => {
      const day = new Date(Date.UTC(2026, 3, 1 + n)).toISOString().slice(0, 10)
      const [model] = record.chart.sessions
      return { ...model, id: `session/mika/${day}`, day, recordedAt: `${day}T16:00:00.000Z` }
    }) as typeof entries
    const chart = readChart('mika', [...entries, ...sessions])
    const again = await readBack(await progressReport(chart, record.team, '2026-06-01T10:00:00.000Z'))
    expect(again.pages.length).toBeLessThanOrEqual(2)
    expect(again.pages.join(' ')).toContain('The last 12 of 64 runs.')
  })

  for (const state of ['no running', 'ground running'] as const)
    test(`with every criterion of a knee asked for from ${state} still stays at two pages, and leaves out no criterion`, async () => {
      const entries = record.chart.entries.map((entry) => {
        if (entry.kind === 'episode')
          return {
            ...entry,
            tissue: 'joint' as const,
            diagnosis: 'ACL reconstruction',
            surgeryDay: '2026-01-02',
          }
        if (entry.kind === 'clearance') return { ...entry, state }
        return 'words' in entry ? { ...entry, words: 'sore words '.repeat(250) } : entry
      })
      const chart = readChart('mika', entries as typeof record.chart.entries)
      const { library } = record.desk
      const options = { shelf: library, paper: 'LETTER' } as const
      const again = await readBack(await progressReport(chart, record.team, record.now, options))
      const text = again.pages.join(' ').replaceAll(/\s+/g, ' ')
      expect(again.pages.length).toBeLessThanOrEqual(2)
      const [set] = criteriaFound(chart, library, { state, today: '2026-03-29' })
      expect(set?.lines.length).toBeGreaterThan(8)
      for (const { words } of set?.lines ?? []) expect(text).toContain(words)
    })

  test('of an athlete who is only enrolled says what is not there', async () => {
    const chart = readChart('mika', record.chart.entries.slice(0, 1))
    const again = await readBack(await progressReport(chart, record.team, record.now))
    expect(again.pages).toHaveLength(1)
    expect(again.pages[0]).toMatch(
      /No episode is written down.*No clearance is signed.*No run is logged yet/s,
    )
  })
})
