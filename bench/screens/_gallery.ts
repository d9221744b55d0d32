import { writeFileSync } from 'node:fs';
import { chartCases } from './cases.js';
import { partCharts } from '../../src/render/wearSvg.js';
import { STYLESHEET } from '../../src/render/pages/stylesheet.js';
const rows = { wide: '', narrow: '', print: '' } as Record<string, string>;
for (const { name, picture, history } of chartCases()) {
  const charts = partCharts(picture, history.vehicle);
  for (const layout of ['wide', 'narrow', 'print'] as const)
    rows[layout] +=
      `<div class="case"><h3>${name}</h3>${charts.map((c) => (c.drawings ? `<figure class="chart shown">${c.drawings[layout]}</figure>` : `<p class="chart none shown"><b>${c.name}</b> ${c.silence}</p>`)).join('')}</div>`;
}
for (const [layout, html] of Object.entries(rows))
  writeFileSync(
    `/tmp/gallery-${layout}.html`,
    `<!doctype html><meta charset=utf8><style>${STYLESHEET} .chart.shown{display:block !important;margin:8px 0} body{padding:16px} .grid{display:grid;grid-template-columns:repeat(${layout === 'wide' ? 2 : 4},${layout === 'wide' ? 720 : 352}px);gap:24px 40px}</style><div class=grid>${html}</div>`,
  );
