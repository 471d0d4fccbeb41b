import type { Chart } from '../../chart/chart.ts'
import type { Day } from '../../chart/day.ts'
import type { PictureName, Pictures } from '../../desk/ports.ts'
import { drawPng } from './draw.ts'
import { ladderPicture } from './ladder.ts'
import { painAndDose } from './pain-and-dose.ts'
import type { Picture } from './picture.ts'
import { readinessPicture } from './readiness.ts'
import { weekLoad } from './week-load.ts'

const models: Record<PictureName, (chart: Chart, today: Day) => Picture | undefined> = {
  'pain-and-dose': painAndDose,
  ladder: ladderPicture,
  'week-load': weekLoad,
  readiness: readinessPicture,
}

export const pictures: Pictures = {
  async draw(name, chart, today) {
    const picture = models[name](chart, today)
    if (!picture) return undefined
    const { title, alt } = picture
    return { name, title, alt, png: await drawPng(picture) }
  },
}
