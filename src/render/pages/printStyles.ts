/** How pages look on A4: sizes in points and millimetres, ink without washes, and boxes to write in. */
export const PRINT_STYLES = `@media print {
  @page { size: A4; margin: 9mm 10mm 9mm; @bottom-right { content: "page " counter(page) " of " counter(pages); font: 7.5pt sans-serif; } }
  :root { --soft: #333333; --rule: #555555; --hair: #c4c4c4; --accent: #15151a; --fan-50: #9a9a9a; --fan-80: #d6d6d6; }
  html { font-size: 8.5pt; line-height: 1.28; }
  .site, main, .closing { max-width: none; padding: 0; margin: 0; }
  .top, .closing[hidden], .skip, .on-screen { display: none; }
  a { color: inherit; text-decoration: none; }
  h1 { font-size: 17pt; margin: 0; }
  h2 { font-size: 12pt; margin: 0 0 1pt; }
  h2, h3, caption { break-after: avoid; }
  p { margin: 2pt 0; }
  .small, .hint { font-size: 7.5pt; }
  section.part { border-top-width: 1.5pt; margin-top: 4pt; padding-top: 2pt; }
  .two { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 4mm; }
  .ends.two { display: block; }
  /* The advice of a vehicle's only axle, so that its sheet stays one page. */
  .advices > :only-child { grid-column: 1 / -1; }
  .columns { columns: 2; column-gap: 5mm; }
  .on-paper-table[hidden] { display: table; }
  .box[hidden] { display: table-cell; }
  .on-paper[hidden], .briefly[hidden] { display: block; }
  .axle > h2 { display: inline-block; margin-right: 6pt; }
  .folded[hidden] { display: inline; font-size: 7.5pt; }
  .mark.on-paper[hidden] { float: right; padding-left: 8pt; }

  /* A table head repeats on every page, and with it the vehicle's name and the date. */
  main:has(> .running) { display: table; table-layout: fixed; width: 100%; }
  .running[hidden] { display: table-header-group; break-inside: avoid; }
  .running p { display: flex; align-items: baseline; gap: 10pt; border-bottom: 0.5pt solid; padding-bottom: 1pt; margin: 0 0 3pt; }
  .running strong { font-size: 17pt; }
  /* One line, however long the description is: the name and the date stay whole. */
  .running p > * { flex: none; min-width: 0; max-width: 60%; white-space: nowrap; overflow: hidden; text-overflow: ellipsis; }
  .running .about { flex: 1 1 0; }
  .running .fleet { flex: 0 1 auto; max-width: 25%; }
  .running .date { margin-left: auto; }
  .running ~ h1 { display: none; }
  .vehicle h1, .vehicle h1 + .under { display: none; }
  .vehicle .under { margin: 0; }
  .vehicle .soft { display: none; }
  .axle ~ .axle { break-before: page; border-top: 0; margin-top: 0; }
  .advice { margin-top: 4pt; padding: 3pt 8pt 4pt 8pt; font-size: 8.5pt; }
  .advice header, .advice h2, .advice p { font-size: 8.5pt; line-height: 1.25; margin-top: 1pt; }
  .advice .what, .advice.filled .what, .advice.thick .what { font-size: 12pt; margin: 1pt 0; }
  .advice.filled { background: none; color: inherit; border: 3pt solid var(--ink); }
  .advice.thick { background: none; border: 0.75pt solid var(--ink); border-left-width: 8pt; }

  table, .numbers { font-size: 8.5pt; break-inside: avoid; margin: 3pt 0 0; }
  tr, figure, .advice, li { break-inside: avoid; }
  thead { display: table-header-group; }
  caption { font-size: 7.5pt; padding: 1pt 0 0; }
  caption strong { font-size: 9.5pt; }
  th, td, .numbers th, .numbers td { padding: 2pt 5pt 1pt 0; border-bottom-color: #555555; }
  .numbers td.box, .numbers th.box { padding-left: 4pt; }
  thead th { font-size: 7.5pt; padding-bottom: 1pt; }
  td small, th small { font-size: 7.5pt; display: inline; }
  .evidence th, .evidence td { white-space: nowrap; }
  td.box, th.box { padding-left: 4pt; }
  td.box { border: 0.75pt solid var(--ink); height: 7.6mm; min-width: 15mm; }
  .evidence th, .evidence td { vertical-align: middle; }
  .boxes { table-layout: fixed; }

  .chart.wide { display: none; }
  .chart.paper[hidden] { display: block; }
  .chart { margin: 3pt 0 0; order: 1; }
  .evidence { display: grid; grid-template-columns: 352px 352px; justify-content: space-between; align-items: start; }
  .evidence > table { order: 2; grid-column: 1 / -1; }
  ul.checks { margin: 2pt 0; }
  ul.checks li { margin: 2pt 0; padding-left: 14pt; }
  ul.checks li::before { width: 7pt; height: 7pt; top: 2pt; border-width: 1pt; }
  ul.checks .because { font-size: 7.5pt; line-height: 1.2; }
  section.cautions { margin-top: 2pt; padding-top: 1pt; }
  .cautions ul { columns: 2; column-gap: 5mm; margin: 1pt 0 0; padding-left: 10pt; }
  .cautions li { margin: 0; line-height: 1.15; }
  .cautions h2 { font-size: 10pt; }

  ul.items > li { padding: 2pt 0; }
  .due-row, .due-head { grid-template-columns: minmax(0, 10fr) minmax(0, 11fr) minmax(0, 9fr) minmax(0, 13fr) minmax(0, 18fr) 40pt; gap: 0 8pt; }
  .due-head { margin: 0; font-size: 7.5pt; }
  .due-head .bar text { font-size: 15px; }
  .due-row small { font-size: 7.5pt; }
  .due-row .chart { order: 0; }
  section.due { margin-top: 6pt; }
  .measure-row { grid-template-columns: minmax(0, 7fr) minmax(0, 4fr) minmax(0, 12fr); }
  form[role=search] { display: none; }
}
`;
