import { createRequire } from 'node:module'
import type { Picture } from './picture.ts'

const require = createRequire(import.meta.url)
const font = 'DejaVu Sans'
/** As wide as a phone; drawn at twice that, so that it stays sharp. */
const width = 360
const scale = 2

/**
 * Draws a picture as SVG. The drawing libraries are loaded when the first picture is asked for: starting and waiting
 * must not pay for them. Throws when the picture cannot be drawn; the message then goes out without it.
 */
export async function drawSvg(picture: Picture): Promise<string> {
  const [vega, vegaLite] = await Promise.all([import('vega'), import('vega-lite')])
  const full = {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    title: picture.title,
    config,
    ...sized(picture.spec),
  }
  const { spec } = vegaLite.compile(full as never)
  const view = new vega.View(vega.parse(spec), { renderer: 'none' })
  const svg = await view.toSVG()
  view.finalize()
  return svg
}

/** PNG with the bundled font: text must not depend on what the machine has. */
export async function drawPng(picture: Picture): Promise<Uint8Array> {
  const svg = await drawSvg(picture)
  const { Resvg } = await import('@resvg/resvg-js')
  const fontFile = require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf')
  const options = {
    background: 'white',
    fitTo: { mode: 'zoom' as const, value: scale },
    font: { fontFiles: [fontFile], loadSystemFonts: false, defaultFontFamily: font },
  }
  return new Resvg(svg, options).render().asPng()
}

const config = {
  font,
  background: 'white',
  view: { stroke: null },
  title: { anchor: 'start', fontSize: 14, color: '#222222', offset: 10 },
  axis: {
    labelFontSize: 11,
    titleFontSize: 11,
    labelColor: '#222222',
    titleColor: '#222222',
    gridColor: '#dddddd',
  },
  legend: { labelFontSize: 11, labelColor: '#222222' },
}

/** A stack of panels takes its width in each panel. */
function sized(spec: object): object {
  if (!('vconcat' in spec)) return { width, ...spec }
  return { ...spec, vconcat: (spec.vconcat as object[]).map((panel) => ({ width, ...panel })) }
}
