import type { Figure } from './figure.ts'
import { forceFigures } from './force-figures.ts'
import { loadFigures } from './load-figures.ts'
import { metabolicFigures } from './metabolic-figures.ts'
import { scoreFigures } from './score-figures.ts'
import { supportFigures } from './support-figures.ts'

/** Every published figure this code is held to, by subject: tested, and printed by the `figures` command. */
export const allFigures: Readonly<Record<string, readonly Figure[]>> = {
  'Units and metabolic equations': metabolicFigures,
  'Support, effort and circulation': supportFigures,
  'Force, steps and tissue': forceFigures,
  'Session load and trend': loadFigures,
  'Readiness, symmetry and scores': scoreFigures,
}
