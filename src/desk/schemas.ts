import { z } from 'zod'
import { Clinic } from '../chart/clinic.ts'
import { CriteriaSet } from '../chart/criteria-set.ts'
import { Entry } from '../chart/entries.ts'
import { Families } from '../chart/family.ts'
import { Ladder } from '../chart/ladder.ts'
import { MeasureKinds } from '../chart/measure-kind.ts'
import { Programme } from '../chart/programme.ts'
import { SetUpCard } from '../chart/set-up-card.ts'
import { Submission } from '../rules/submissions.ts'
import { Scenario } from './scenario-file.ts'

const shapes = {
  clinic: Clinic,
  'criteria-set': CriteriaSet,
  entry: Entry,
  families: Families,
  ladder: Ladder,
  measures: MeasureKinds,
  programme: Programme,
  scenario: Scenario,
  'set-up-card': SetUpCard,
  submission: Submission,
} as const

/** File name and text of every JSON schema in shared/schemas/, written from the shapes that the code itself parses. */
export function schemaFiles(): readonly { readonly name: string; readonly text: string }[] {
  return Object.entries(shapes).map(([name, shape]) => ({
    name: `${name}.schema.json`,
    text: `${JSON.stringify(z.toJSONSchema(shape, { io: 'input', unrepresentable: 'any' }), null, 2)}\n`,
  }))
}
