import { z } from 'zod'
import { rawNumber, rawText, richText } from './block-prose.ts'
import { identifier } from './block-texts.ts'

const block = { block_id: identifier.optional() }

/** Sizes are the smaller of the two readings that exist: 20 columns, a heading row and 100 more. */
export const dataTable = z
  .strictObject({
    type: z.literal('data_table'),
    ...block,
    caption: z.string().min(1),
    rows: z
      .array(
        z
          .array(z.discriminatedUnion('type', [rawText, rawNumber, richText]))
          .min(1)
          .max(20),
      )
      .min(2)
      .max(101),
    page_size: z.number().int().min(1).max(100).optional(),
    row_header_column_index: z.number().int().min(0).optional(),
  })
  .refine((t) => t.rows.every((row) => row.length === t.rows[0]?.length), {
    message: 'every row is as wide as the first',
    params: { code: 'uneven_rows' },
  })
  .refine((t) => t.rows[0]?.every((cell) => cell.type !== 'rich_text'), {
    message: 'the heading row takes no rich_text',
    params: { code: 'invalid_heading' },
  })

const label = z.string().min(1).max(20)
const pie = z.strictObject({
  type: z.literal('pie'),
  segments: z
    .array(z.strictObject({ label, value: z.number().positive() }))
    .min(1)
    .max(6),
})

const plotted = (type: 'line' | 'bar' | 'area') =>
  z
    .strictObject({
      type: z.literal(type),
      series: z
        .array(
          z.strictObject({
            name: label,
            data: z.array(z.strictObject({ label, value: z.number() })).min(1),
          }),
        )
        .min(1)
        .max(6),
      // The names of the axis titles were not read at the source, their size was.
      axis_config: z.object({ categories: z.array(label).min(1).max(20) }).catchall(z.string().max(50)),
    })
    .refine((c) => new Set(c.series.map((s) => s.name)).size === c.series.length, {
      message: 'series names are unique',
      params: { code: 'duplicate_series' },
    })
    .refine(
      (c) =>
        c.series.every((s) => s.data.map((d) => d.label).join('\n') === c.axis_config.categories.join('\n')),
      {
        message: 'every series has one value for every category',
        params: { code: 'missing_value' },
      },
    )

export const dataVisualization = z.strictObject({
  type: z.literal('data_visualization'),
  ...block,
  title: z.string().min(1).max(50),
  chart: z.discriminatedUnion('type', [pie, plotted('line'), plotted('bar'), plotted('area')]),
})
