import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Person } from '../../src/chart/roster.ts'
import { renderPages } from '../../src/commands/pictures-report.ts'
import { progressReport } from '../../src/reports/progress-report.ts'
import { openSheet } from '../../src/reports/sheet.ts'
import { type Record, twoWeeks } from './record.ts'

let record: Record
beforeAll(async () => {
  record = await twoWeeks()
})

/** The report of the same two weeks, of an athlete by another name. */
async function reportOf(name: string, therapist = 'Iben Marlow'): Promise<Uint8Array> {
  const { chart, team, now } = record
  const people = new Map(team.roster.people)
  for (const [id, called] of [
    ['mika', name],
    ['iben', therapist],
  ] as const)
    people.set(id, { ...(people.get(id) as Person), name: called })
  return progressReport(chart, { ...team, roster: { ...team.roster, people } }, now)
}

/** Letter for letter, but in any order: how joined and turned letters come back from a reader that sees only what is drawn. */
const lettersOf = (text: string) => [...text].toSorted().join('')

/** What is read aloud in place of what is drawn. */
function spokenIn(pdf: Uint8Array): readonly string[] {
  const text = Buffer.from(pdf).toString('latin1')
  const escapes: { [letter: string]: string } = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' }
  return [...text.matchAll(/\/ActualText \(((?:\\.|[^\\)])*)\)/gs)].map(([, written = '']) => {
    const plain = written.replaceAll(/\\(.)/gs, (_, letter: string) => escapes[letter] ?? letter)
    const bytes = Buffer.from(plain, 'latin1')
    return plain.startsWith('\u00fe\u00ff') ? bytes.subarray(2).swap16().toString('utf16le') : plain
  })
}

type Item = { readonly str: string; readonly x: number; readonly y: number; readonly width: number }

async function itemsOf(pdf: Uint8Array): Promise<readonly Item[]> {
  const loading = getDocument({ data: new Uint8Array(pdf), verbosity: 0 })
  const document = await loading.promise
  const items: Item[] = []
  for (let number = 1; number <= document.numPages; number += 1) {
    const { items: found } = await (await document.getPage(number)).getTextContent()
    for (const item of found)
      if ('str' in item)
        items.push({
          str: item.str + (item.hasEOL ? ' ' : ''),
          x: item.transform[4],
          y: item.transform[5],
          width: item.width,
        })
  }
  await loading.destroy()
  return items
}

const textOf = async (pdf: Uint8Array) => {
  const items = await itemsOf(pdf)
  return items.map(({ str }) => str).join('')
}

/** Which columns of the picture have ink, in a heading that stands alone at the top of an A4 page. */
async function inkOf(text: string): Promise<readonly boolean[]> {
  const sheet = openSheet({ paper: 'A4', title: 'x', author: 'x', now: '2026-03-16T10:00:00.000Z' })
  sheet.heading(text, 1)
  const [page] = await renderPages(await sheet.finish(''))
  const { createCanvas, loadImage } = await import('@napi-rs/canvas')
  const image = await loadImage(page ?? Buffer.alloc(0))
  const [width, height] = [image.width, 160]
  const pen = createCanvas(width, height).getContext('2d')
  pen.drawImage(image, 0, 0)
  const { data } = pen.getImageData(0, 0, width, height)
  return Array.from({ length: width }, (_, x) =>
    Array.from({ length: height }, (_, y) => data[(y * width + x) * 4] ?? 255).some((grey) => grey < 128),
  )
}

const names = {
  'Han characters': ['李明', '王芳'],
  'Han characters and kana': ['山田たろう', '鈴木はなこ'],
  'traditional characters': ['陳國齋', '劉藤濱'],
  Hangul: ['김민준', '이서연'],
  Devanagari: ['अर्जुन शर्मा', 'प्रिया क्षत्रिय'],
  Arabic: ['محمد الأحمد', 'فاطمة الزهراء'],
  Hebrew: ['אברהם לוי', 'שרה כהן'],
  Greek: ['Γιώργος', 'Ελένη'],
  Cyrillic: ['Владимир', 'Наталья'],
  'Latin with marks': ['Łukasz Ørsted', 'Zoë Şahin'],
} as const

/** Scripts whose letters join and change places, so that only what is spoken has them in the order of writing. */
const joined: ReadonlySet<string> = new Set(['Devanagari', 'Arabic'])
const { Greek: _greek, Cyrillic: _cyrillic, 'Latin with marks': _latin, ...elsewhere } = names

describe('a name in another script, turned back into text', () => {
  for (const [script, [name]] of Object.entries(names))
    test(`${script}: the name reads as it was written, in the title and in the foot`, async () => {
      const pdf = await reportOf(name)
      const text = await textOf(pdf)
      const [title = ''] = text.match(/(?<=Progress report: ).*?(?= Tidewater)/) ?? []
      const [foot = ''] = text.match(/[^.]*(?= \(mika\), entry)/)?.map((one) => one.slice(-name.length)) ?? []
      for (const found of [title, foot])
        if (joined.has(script)) expect(lettersOf(found)).toBe(lettersOf(name))
        else expect(found).toBe(name)
      if (script in elsewhere) expect(spokenIn(pdf)).toContain(`Progress report: ${name}`)
      expect(text).not.toContain('U+')
    })

  test('in the middle of a sentence and in a cell of a table too', async () => {
    const text = (await textOf(await reportOf('Mika Oddvar', 'محمد حسن'))).replaceAll(/\s+/g, ' ')
    expect(text).toContain('Treating therapist: محمد حسن, cover Ravi Thornby.')
    expect(text).toContain('Acknowledged by محمد حسن')
    expect(text).toContain('plan by محمد حسن on 2026-03-15')
  })
})

describe('a name in another script, turned into a picture', () => {
  for (const [script, [one, other]] of Object.entries(names))
    test(`${script}: two names do not look alike, as boxes for missing letters would`, async () => {
      const [a, b] = [await inkOf(one), await inkOf(other)]
      expect(a.filter(Boolean).length).toBeGreaterThan(40)
      expect(a).not.toEqual(b)
    })

  test('of a name from right to left the first word stands at the right', async () => {
    const ink = await inkOf('ل محمدالأحمدمحمد')
    const [from, until] = [ink.indexOf(true), ink.lastIndexOf(true)]
    let widest = { at: 0, length: 0 }
    for (let x = from, gap = 0; x <= until; x += 1) {
      gap = ink[x] ? 0 : gap + 1
      if (gap > widest.length) widest = { at: x, length: gap }
    }
    expect(widest.length).toBeGreaterThan(5)
    expect((widest.at - from) / (until - from)).toBeGreaterThan(0.75)
  })
})

describe('what no font draws', () => {
  test('stands as its code points, and the page says so; nothing is blank and nothing is invented', async () => {
    const text = (await textOf(await reportOf('สมชาย'))).replaceAll(/\s+/g, ' ')
    expect(text).toContain('Progress report: [U+0E2A][U+0E21][U+0E0A][U+0E32][U+0E22]')
    expect(text).toContain('cannot draw stand as their code points: U+0E0A, U+0E21, U+0E22, U+0E2A, U+0E32.')
  })

  test('is still read aloud as it was written', async () => {
    expect(spokenIn(await reportOf('สมชาย'))).toContain('Progress report: สมชาย')
  })

  test('a mark that would turn the rest of the line around is shown, not obeyed', async () => {
    const text = await textOf(await reportOf('Mika \u202eOddvar'))
    expect(text).toContain('Mika [U+202E]Oddvar')
  })

  test('a name in letters and marks apart is the same as the name in one', async () => {
    const text = await textOf(await reportOf('Zoë Müller'.normalize('NFD')))
    expect(text).toContain('Progress report: Zoë Müller')
  })
})

describe('pages', () => {
  test('a heading stays with what it stands over, and a table that goes on begins with its head again', async () => {
    const sheet = openSheet({ paper: 'LETTER', title: 'x', author: 'x', now: '2026-03-16T10:00:00.000Z' })
    for (let n = 1; n <= 45; n += 1) sheet.paragraph(`line ${n}`)
    sheet.heading('Of the table')
    sheet.paragraph('Of this table', 'strong')
    const rows = Array.from({ length: 30 }, (_, n) => [`row ${n + 1}`, 'value'])
    sheet.grid({ widths: [1, 1], head: ['Name', 'Of what'], rows })
    const items = await itemsOf(await sheet.finish(''))
    const strs = items.map(({ str }) => str.trim()).filter((str) => str !== '')
    const at = strs.indexOf('Of the table')
    expect(strs.slice(at, at + 5)).toEqual(['Of the table', 'Of this table', 'Name', 'Of what', 'row 1'])
    expect(strs.filter((str) => str === 'Of what').length).toBe(2)
  })

  test('no letter stands outside the paper', async () => {
    for (const name of ['Mika Oddvar', 'x'.repeat(80), '李'.repeat(80), 'محمد '.repeat(16).trim()])
      for (const { x, y, width } of await itemsOf(await reportOf(name))) {
        expect(x).toBeGreaterThanOrEqual(40)
        expect(x + width).toBeLessThanOrEqual(595 - 40)
        expect(y).toBeGreaterThan(20)
      }
  })
})
