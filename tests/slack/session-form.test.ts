import { expect, test } from 'vitest'
import { runMinutes } from '../../src/chart/dose.ts'
import { wasWhole } from '../../src/rules/whole.ts'
import { readForm } from '../../src/slack/form.ts'
import { type Prefilled, sessionFrom, sessionModal } from '../../src/slack/session.ts'
import { athlete, library } from '../rules/life.ts'

const day = '2026-03-02'
type Input = {
  readonly type: string
  readonly block_id?: string
  readonly element?: { readonly type: string; readonly initial_value?: string }
}

/** What the form holds when nothing is typed and every pain is none. */
function untouched(blocks: readonly Input[]): Parameters<typeof readForm>[0] {
  const values = blocks
    .filter((block) => block.type === 'input')
    .map(({ block_id: id = '', element }) => [
      id,
      {
        [id]:
          element?.type === 'static_select'
            ? { selected_option: { value: id === 'soreness' ? 'none' : '0' } }
            : { value: element?.initial_value ?? null },
      },
    ])
  return Object.fromEntries(values)
}

/** Every rung of every ladder, logged as it was prescribed without a keystroke. */
for (const ladder of library.ladders)
  test(`${ladder.id}: each rung that is logged untouched counts as the whole dose`, () => {
    const tissue = ladder.tissues?.[0] ?? 'bone'
    let looked = 0
    for (let startRung = 1; startRung <= ladder.rungs.length; startRung += 1) {
      const ada = athlete({ tissue, ladder: `${ladder.id}@${ladder.version}`, startRung })
      const dose = ada.morning(day)?.dose
      if (!dose) continue
      const form = sessionModal(ada.chart(), day)
      expect(form.blocks.length).toBeLessThanOrEqual(100)
      const about = JSON.parse(form.private_metadata ?? '') as Prefilled
      const session = sessionFrom(readForm(untouched(form.blocks as readonly Input[])), about)
      const { kind: _, athlete: __, ...log } = session as { kind: string; athlete: string; day: string }
      ada.handIn('ada', 'athlete', '2026-03-02T17:00:00.000Z', { kind: 'session-done', ...log })
      const done = ada.chart().sessions.at(-1)
      if (!done) throw new Error('nothing was logged')
      expect(wasWhole(ada.chart(), done), `rung ${startRung}`).toBe(true)
      const minutes = done.bouts.reduce((sum, bout) => sum + bout.minutes * bout.repeats, 0)
      expect(minutes, `rung ${startRung}`).toBeGreaterThanOrEqual(runMinutes(dose).low * 0.95)
      looked += 1
    }
    expect(looked, 'some rung was prescribed').toBeGreaterThan(0)
  })
