import { expect, test } from 'vitest'
import { readable } from '../../src/rehearsal/readable.ts'
import { form, plain } from './samples.ts'

const names: Record<string, string> = { UADA: 'Ada Moss', CTEAM: 'team' }
const read = (...blocks: object[]) => readable({ blocks }, (id) => names[id])
const mrkdwn = (text: string) => ({ type: 'section', text: { type: 'mrkdwn', text } })

test('mark-up is taken off and signs are read as they were meant', () => {
  expect(
    read(mrkdwn('*Run* 3 &lt; 4 &amp; `4 &gt; 3`, see <https://a.org|the page>, <@UADA> in <#CTEAM>')),
  ).toEqual(['Run 3 < 4 & `4 > 3`, see the page (https://a.org), @Ada Moss in #team'])
  expect(read(mrkdwn('<!channel> look: 2*3 and snake_case_word stay, _this_ and ~that~ do not'))).toEqual([
    '@channel look: 2*3 and snake_case_word stay, this and that do not',
  ])
  expect(read(mrkdwn('<https://a.org>\nsecond line'))).toEqual(['https://a.org', 'second line'])
})

test('what was given as plain text or rich text is read as it stands', () => {
  const rich = (...elements: object[]) => ({ type: 'rich_text', elements })
  const text = (words: string) => ({ type: 'text', text: words })
  expect(read({ type: 'section', text: plain('*not bold* <!channel>') })).toEqual(['*not bold* <!channel>'])
  expect(
    read(
      rich(
        { type: 'rich_text_section', elements: [text('*stars* '), { type: 'user', user_id: 'UADA' }] },
        {
          type: 'rich_text_list',
          style: 'ordered',
          elements: ['walk', 'run'].map((w) => ({ type: 'rich_text_section', elements: [text(w)] })),
        },
      ),
    ),
  ).toEqual(['*stars* @Ada Moss', '1. walk', '2. run'])
})

test('every kind of block is read, buttons in brackets and pictures by their words', () => {
  expect(
    read(
      { type: 'header', text: plain('Today') },
      { type: 'section', fields: [plain('70 %'), plain('12 min'), plain('rest')] },
      { type: 'divider' },
      { type: 'context', elements: [{ type: 'image', alt_text: 'a bird' }, plain('until noon')] },
      { type: 'image', title: plain('Week'), alt_text: 'pain fell from 4 to 1' },
      {
        type: 'table',
        rows: [
          [
            { type: 'raw_text', text: 'bout' },
            { type: 'raw_number', value: 3, text: '3' },
          ],
        ],
      },
      {
        type: 'actions',
        elements: [
          { type: 'button', text: plain('Acknowledge') },
          { type: 'overflow', options: [{ text: plain('Why'), value: 'why' }] },
        ],
      },
      {
        type: 'data_visualization',
        title: 'Pain',
        chart: { type: 'line', series: [{ name: 'worst', data: [{ label: 'Mon', value: 3 }] }] },
      },
    ),
  ).toEqual([
    'Today',
    '70 % | 12 min',
    'rest',
    '---',
    '[picture: a bird] until noon',
    'Week',
    '[picture: pain fell from 4 to 1]',
    'bout | 3',
    '[Acknowledge] [... Why]',
    'Pain',
    'worst: Mon 3',
  ])
})

test('a form is read with its title, labels and choices; a message without blocks by its text', () => {
  expect(readable(form)).toEqual([
    'Morning',
    'Pain: ____',
    'Sleep: ( Well | Badly )',
    'Note (optional): ____',
  ])
  expect(readable({ text: 'a *notice*' })).toEqual(['a notice'])
})
