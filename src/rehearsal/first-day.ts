import { instantAt } from '../chart/day.ts'
import { newest } from './acts.ts'
import { cast, coachesChannel, enrolment, player } from './cast.ts'
import type { Stage } from './stage.ts'

export const clinicZone = 'Europe/Lisbon'

/** Every rehearsal begins here: a Sunday, the day before the first mornings are asked. */
export const startAt = instantAt('2026-03-15', '10:00', clinicZone)

/** The first morning: two of three athletes have just been asked. */
export const firstMorningAt = instantAt('2026-03-16', '06:30', clinicZone)

/** The clinic lead names everybody; the therapist enrols and signs for three athletes. */
export async function enrolEverybody(stage: Stage): Promise<void> {
  stage.say(
    '\n=== Before the first day: Sunniva, the clinic lead, names people; Iben, the therapist, enrols and signs',
  )
  for (const { id, name, role, account, timeZone } of cast)
    await stage.bot.submit('sunniva', {
      kind: 'person',
      person: { id, name, roles: [role], chatUser: account, timeZone, active: true },
    })
  await stage.bot.submit('sunniva', { kind: 'place', place: 'coaches', channel: coachesChannel.id })
  const cases = [
    {
      id: 'mika',
      site: 'distal medial tibia',
      side: 'left' as const,
      onsetDay: '2026-02-12',
      clearedUntil: '2026-04-12',
    },
    {
      id: 'adaeze',
      site: 'medial tibia',
      side: 'right' as const,
      onsetDay: '2026-02-09',
      clearedUntil: '2026-04-12',
    },
    {
      id: 'joran',
      site: 'distal medial tibia',
      side: 'right' as const,
      onsetDay: '2026-02-10',
      clearedUntil: '2026-04-02',
    },
  ]
  for (const one of cases)
    for (const submission of enrolment(player(one.id), one)) {
      const coaches = submission.kind === 'enrolment' ? { coaches: ['noor', 'tove'] } : {}
      await stage.bot.submit('iben', { ...submission, ...coaches })
    }
  await stage.bot.round()
  await stage.settle()
  stage.expect(newest(stage, 'mika', 'Welcome') !== undefined, 'Mika is welcomed and told what coaches see')
}
