import { PRINT_STYLES } from './printStyles.js';

/**
 * The only stylesheet of the pages. Ink is for measurements and accent for forecasts; urgency shows as weight of ink,
 * never as a colour. Sizes on screen are in rem of 16 px, on paper in points.
 *
 * From 960 px up a part's chart and numbers are next to each other. The wide chart needs 720 px: it is shown alone from
 * 752 px and next to its numbers from 1160 px; in between and on phones the narrow one is shown.
 */
export const STYLESHEET = `
:root {
  color-scheme: light dark;
  --paper: #ffffff; --ink: #15151a; --soft: #4c4c58; --rule: #7d7d89; --hair: #d8d8df; --wash: #f3f3f6;
  --accent: #45349e; --on-accent: #ffffff; --fan-50: #968bd4; --fan-80: #dcd8f4; --focus: var(--accent);
}
@media screen and (prefers-color-scheme: dark) {
  :root {
    --paper: #121216; --ink: #f2f2f5; --soft: #bdbdc8; --rule: #83838f; --hair: #36363f; --wash: #1d1d23;
    --accent: #bcb3ff; --on-accent: #121216; --fan-50: #655aae; --fan-80: #322c58;
  }
}
* { box-sizing: border-box; }
[hidden] { display: none; }
html { font: 100%/1.4 -apple-system, "Segoe UI", Roboto, "Noto Sans", "Helvetica Neue", Arial, "Liberation Sans", "DejaVu Sans", system-ui, sans-serif; font-variant-numeric: tabular-nums; color: var(--ink); background: var(--paper); -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body { margin: 0; font-size: 0.9375rem; overflow-wrap: break-word; }
.site, main, .closing { max-width: 1200px; margin: 0 auto; padding: 0 16px; }
main { padding-bottom: 32px; }
main:focus { outline: none; }
a { color: var(--accent); text-underline-offset: 0.18em; text-decoration-thickness: 1px; }
a:hover { text-decoration-thickness: 2px; }
/* Inline padding enlarges the touch target without moving the layout. */
main a { padding-block: 14px; }
:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; }
.skip { position: absolute; left: -100rem; }
.skip:focus { position: static; display: inline-block; padding: 12px 16px; }

/* Navigation */
.top { border-bottom: 1px solid var(--hair); }
.site { display: flex; justify-content: space-between; align-items: stretch; gap: 0 24px; }
.site nav, .links { display: flex; flex-wrap: wrap; gap: 0 20px; align-items: stretch; }
.site a, .links a { display: flex; align-items: center; min-height: 48px; }
.site nav a { color: var(--ink); text-decoration: none; border-bottom: 3px solid transparent; border-top: 3px solid transparent; }
.site nav a:hover { border-bottom-color: var(--rule); }
.site nav a[aria-current] { font-weight: 700; border-bottom-color: var(--ink); }
.links { font-size: 0.875rem; align-items: center; }
.site .links a { color: var(--ink); text-decoration: none; }
.site .links a:hover { text-decoration: underline; }
.site .links { display: none; }
.closing { border-top: 1px solid var(--hair); margin-top: 16px; }
.closing[hidden] { display: block; }
form.inline { display: inline-flex; margin: 0; }
button.plain { font: inherit; color: var(--accent); background: none; border: 0; padding: 0; min-height: 48px; text-decoration: underline; text-underline-offset: 0.18em; cursor: pointer; }
.site button.plain { color: var(--ink); text-decoration: none; }
.site button.plain:hover { text-decoration: underline; }

/* Type */
h1 { font-size: 2rem; line-height: 1.15; margin: 20px 0 0; overflow-wrap: anywhere; }
h2 { font-size: 1.375rem; line-height: 1.25; margin: 0 0 8px; }
h3 { font-size: 1rem; line-height: 1.3; margin: 16px 0 4px; }
p, ul, ol, dl, table, figure, form { margin: 6px 0; }
.under { margin: 0; }
.soft { color: var(--soft); }
.small { font-size: 0.875rem; line-height: 1.4; }
.strong { font-weight: 700; }
.keep { white-space: nowrap; }
.name, .name + .soft, .under, .who, .fleet, .pair > span { overflow-wrap: anywhere; }
.count { font-weight: 400; color: var(--soft); }
section.part { border-top: 2px solid var(--ink); margin-top: 24px; padding-top: 10px; }

/* Buttons and fields */
.button, button.main { display: inline-flex; align-items: center; justify-content: center; min-height: 52px; padding: 0 24px; border: 0; border-radius: 4px; background: var(--accent); color: var(--on-accent); font: inherit; font-weight: 700; text-decoration: none; cursor: pointer; }
.button:hover, button.main:hover { text-decoration: underline; }
button.wide { width: 100%; }
button.second { display: inline-flex; align-items: center; min-height: 52px; padding: 0 24px; border: 1px solid var(--ink); border-radius: 4px; background: var(--paper); color: var(--ink); font: inherit; font-weight: 700; cursor: pointer; }
h2.task { margin-top: 16px; }
p.note { border-left: 3px solid var(--rule); padding-left: 12px; }
.saved { border: 2px solid var(--ink); padding: 12px 16px; margin: 16px 0; }
.away { position: absolute; left: -100rem; }
.work { border-bottom: 1px solid var(--hair); padding-bottom: 8px; }
.work .choice { border: 0; }
/* Show the side and the part once the work is ticked. */
.work:not(.wrong):not(:has(> .choice input:checked, .wrong)) > :is(select, .fields) { display: none; }
.brake:has(> .field > select > [value=disc]:checked) > .specs.drum, .brake:has(> .field > select > [value=drum]:checked) > .specs.disc, .brake:has(> .field > select > [value=""]:checked) > .specs { display: none; }
pre.sample { overflow-x: auto; background: var(--wash); padding: 12px; font-size: 0.8125rem; }
label, legend, .label { display: block; font-weight: 700; padding: 0; margin-bottom: 4px; }
fieldset { border: 0; margin: 16px 0; padding: 0; min-width: 0; }
input, select, textarea { font: inherit; color: var(--ink); background: var(--paper); width: 100%; max-width: 100%; min-height: 52px; padding: 0 12px; border: 1px solid var(--rule); border-radius: 4px; }
textarea { padding: 12px; }
.field { margin: 16px 0; min-width: 0; }
.hint { display: block; font-weight: 400; font-size: 0.875rem; color: var(--soft); }
.fields { display: grid; grid-template-columns: repeat(auto-fit, minmax(136px, 1fr)); gap: 16px; align-items: end; margin: 16px 0; }
.fields .field { margin: 0; }
.fields.gauge { grid-template-columns: 2fr minmax(96px, 1fr); }
.fields > .wrong, .four > .wrong { grid-column: 1 / -1; }
.four > .wrong input { max-width: 136px; }
input[type=file] { padding: 12px; }
.with-unit { display: flex; gap: 8px; align-items: center; }
.with-unit > :last-child { flex: 0 0 auto; width: auto; }
.narrow { max-width: 560px; }
.with-button { display: flex; gap: 8px; max-width: 640px; }
.with-button input { flex: 1 1 auto; min-width: 0; }
.measure { display: grid; grid-template-columns: 1fr 108px 40px; gap: 0 12px; align-items: center; padding: 8px 0; border-bottom: 1px solid var(--hair); }
.measure label { margin: 0; }
.measure input { text-align: right; font-weight: 700; font-size: 1.25rem; }
.four { display: grid; grid-template-columns: repeat(4, minmax(0, 1fr)); gap: 8px; }
.four label { font-weight: 400; font-size: 0.875rem; color: var(--soft); }
.four input { padding: 0 8px; text-align: center; }
.choice { display: flex; align-items: center; gap: 16px; min-height: 48px; margin: 0; border-bottom: 1px solid var(--hair); font-weight: 400; }
.choice input { width: 28px; min-width: 28px; height: 28px; min-height: 28px; margin: 0; accent-color: var(--accent); }
.radios { display: grid; grid-template-columns: repeat(auto-fit, minmax(88px, 1fr)); gap: 8px; }
.radios .choice { border: 1px solid var(--rule); border-radius: 4px; min-height: 52px; padding: 0 12px; gap: 12px; }
.wrong { border-left: 8px solid var(--ink); padding-left: 12px; }
.wrong:not(.work) :is(input, select, textarea), .work.wrong > .choice > input, .work.wrong > select { border: 3px solid var(--ink); }
.wrong .error { font-weight: 700; margin: 4px 0 0; grid-column: 1 / -1; }

/* Collapsible sections */
details { border-top: 1px solid var(--hair); }
summary { display: flex; align-items: baseline; gap: 12px; min-height: 48px; padding: 12px 0; cursor: pointer; font-weight: 700; list-style: none; }
summary::-webkit-details-marker { display: none; }
summary::before { content: "+" / ""; flex: 0 0 14px; font-weight: 400; font-size: 1.25rem; line-height: 1; color: var(--accent); }
details[open] > summary::before { content: "–" / ""; }
summary .hint { display: inline; }

/* Advice */
.advice { border-left: 2px solid var(--rule); padding: 10px 12px 12px 14px; margin: 12px 0 0; }
.advice header { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 0 12px; font-size: 0.9375rem; }
.advice h2 { font-size: 0.9375rem; margin: 0; }
.advice .what { font-size: 1.125rem; line-height: 1.22; font-weight: 700; margin: 4px 0; }
.advice p { font-size: 0.9375rem; line-height: 1.36; margin: 4px 0 0; }
.advice.filled .what, .advice.thick .what { font-size: 1.375rem; }
.advice.filled { background: var(--ink); color: var(--paper); border-left: 0; padding-left: 16px; --focus: var(--paper); }
.advice.filled a { color: inherit; }
.advice.thick { border-left: 8px solid var(--ink); background: var(--wash); }
.advice.dashed { border-left: 3px dashed var(--ink); }
.refused { background: var(--ink); color: var(--paper); padding: 16px; margin: 16px 0; --focus: var(--paper); }
.refused a { color: inherit; font-weight: 700; display: inline-block; padding: 12px 0; }
input, select, textarea, fieldset { scroll-margin-top: 96px; }
.refused h2, .refused p, .refused ul { margin: 0; }
.refused ul { padding: 0; list-style: none; }

/* Tables and lists */
table { border-collapse: collapse; width: 100%; font-size: 0.9375rem; line-height: 1.25; }
caption { text-align: left; padding: 0 0 6px; font-size: 0.8125rem; line-height: 1.35; color: var(--soft); }
caption strong { font-size: 1rem; color: var(--ink); }
th, td { text-align: left; vertical-align: baseline; padding: 6px 12px 6px 0; border-bottom: 1px solid var(--hair); font-weight: 400; }
th:last-child, td:last-child { padding-right: 0; }
thead th { font-size: 0.8125rem; color: var(--soft); vertical-align: bottom; border-bottom-color: var(--rule); padding-top: 0; padding-bottom: 6px; }
.number { text-align: right; }
table.linked tbody th, table.linked tbody td { padding-top: 0; }
table.linked tbody th { padding-bottom: 0; }
table.linked th a { display: inline-block; }
.date { white-space: nowrap; }
tr.governs > * { font-weight: 700; }
td small, th small { display: block; font-size: 0.8125rem; font-weight: 400; color: var(--soft); white-space: nowrap; }
dl.facts { display: grid; grid-template-columns: max-content 1fr; gap: 4px 16px; font-size: 0.9375rem; }
dl.facts dt { color: var(--soft); }
dl.facts dd { margin: 0; overflow-wrap: anywhere; }
ul.items { list-style: none; padding: 0; margin: 0; }
ul.items > li { padding: 10px 0; border-bottom: 1px solid var(--hair); }
.name { font-weight: 700; color: var(--ink); }
ul.checks { list-style: none; padding: 0; margin: 8px 0; }
ul.checks li { position: relative; padding: 0 0 0 26px; margin: 0 0 8px; break-inside: avoid; }
ul.checks li::before { content: "" / ""; position: absolute; left: 0; top: 4px; width: 14px; height: 14px; border: 2px solid var(--ink); }
ul.checks li.stop::before { background: var(--ink); }
ul.checks li.note::before { width: 8px; height: 8px; left: 3px; top: 7px; border-width: 1px; border-radius: 50%; }
ul.checks .do { font-weight: 700; margin: 0; line-height: 1.3; }
ul.checks .because { font-size: 0.8125rem; line-height: 1.35; color: var(--soft); margin: 0; }
ul.plain { padding-left: 20px; }
.columns { columns: 1; }
.scroll { overflow-x: auto; }

@media (max-width: 751px) {
  .narrow-only[hidden] { display: inline; }
  table.stacked thead { position: absolute; left: -100rem; }
  table.stacked, table.stacked caption, table.stacked tbody, table.stacked tr, table.stacked th, table.stacked td { display: block; width: 100%; }
  table.stacked tr { border-bottom: 1px solid var(--hair); padding: 10px 0; }
  table.stacked th, table.stacked td { border: 0; text-align: left; white-space: normal; padding: 1px 0; }
  table.stacked td::before { content: attr(data-label) ": "; color: var(--soft); }
}

/* Lists */
.lead { font-size: 1.0625rem; margin-bottom: 12px; }
.pair { display: flex; justify-content: space-between; align-items: baseline; gap: 0 16px; margin: 0; }
.pair > a { margin-block: -14px; }
.pair > span:first-child { flex: 1 1 0; min-width: 50%; }
.alone { display: flex; flex-wrap: wrap; gap: 0 20px; }
.alone a { display: flex; align-items: center; min-height: 44px; padding-block: 0; }
.measure-row { display: grid; grid-template-columns: 1fr auto; gap: 0 16px; align-items: baseline; }
.measure-row p { margin: 0; }
.measure-row .fleet, .measure-row .what { grid-column: 1 / -1; }
.measure-row .to { grid-area: 1 / 2; }
.due-head { display: none; }
.due-row { display: grid; grid-template-columns: 1fr auto; gap: 0 12px; }
.due-row p { margin: 0; }
.due-row small { display: block; font-size: 0.8125rem; color: var(--soft); }
.due-row .who { grid-area: 1 / 1; } .due-row .chance { grid-area: 1 / 2; text-align: right; } .due-row .what { grid-area: 2 / 1; } .due-row .when { grid-area: 2 / 2; text-align: right; } .due-row .first { grid-area: 3 / 1 / auto / -1; } .due-row .chart { grid-area: 4 / 1 / auto / -1; margin: 4px 0 0; }
.bar { display: block; width: 100%; height: auto; max-width: 320px; overflow: visible; }
.bar .ink { fill: var(--ink); } .bar .soft-text { fill: var(--soft); } .bar .ink-line { stroke: var(--ink); } .bar .hair-line { stroke: var(--hair); } .bar .accent-line { stroke: var(--accent); }

/* Charts: their SVG has the light-theme colours */
.chart { margin: 12px -8px 4px; }
.chart svg { display: block; font-family: inherit; }
.chart .f-ink { fill: var(--ink); } .chart .s-ink { stroke: var(--ink); }
.chart .f-soft { fill: var(--soft); } .chart .s-soft { stroke: var(--soft); }
.chart .f-rule { fill: var(--rule); } .chart .s-rule { stroke: var(--rule); }
.chart .s-hair { stroke: var(--hair); }
.chart .f-paper { fill: var(--paper); } .chart .s-paper { stroke: var(--paper); }
.chart .f-accent { fill: var(--accent); } .chart .s-accent { stroke: var(--accent); }
.chart .f-fan-50 { fill: var(--fan-50); } .chart .f-fan-80 { fill: var(--fan-80); }
.chart.none { margin: 12px 0; border-left: 3px dashed var(--ink); padding: 4px 0 4px 12px; align-self: start; }

/* The sheet of a vehicle */
.record .button { width: 100%; font-size: 1.0625rem; }
.record { margin: 16px 0 0; }
.jumps { display: flex; flex-wrap: wrap; gap: 0 20px; margin: 0; }
.jumps a { display: flex; align-items: center; min-height: 48px; }
.axle > .evidence > table, .axle > .evidence > div { min-width: 0; }
.numbers { margin: 10px 0 12px; }
.numbers th, .numbers td { padding-top: 4px; padding-bottom: 4px; }
.sides th[scope=row] { width: 46%; }

@media (min-width: 752px) {
  .site, main, .closing { padding-left: 32px; padding-right: 32px; }
  main { padding-bottom: 48px; }
  h1 { font-size: 2.5rem; }
  .advice { margin-top: 16px; padding: 16px 20px 16px 18px; }
  .advice .what { font-size: 1.375rem; }
  .advice.filled .what, .advice.thick .what { font-size: 1.625rem; }
  .chart { margin-left: 0; margin-right: 0; }
  .columns { columns: 2; column-gap: 48px; }
}
@media screen and (max-width: 751px), screen and (min-width: 960px) and (max-width: 1159px) {
  .chart.wide { display: none; }
  .chart.narrow[hidden] { display: block; }
}
@media screen and (min-width: 960px) {
  main { position: relative; }
  .jumps { display: none; }
  .record { position: absolute; top: 24px; right: 32px; margin: 0; }
  .vehicle { padding-right: 216px; }
  .evidence { display: grid; grid-template-columns: 344px minmax(0, 1fr); gap: 0 32px; align-items: start; }
}
@media screen and (min-width: 1160px) {
  .evidence { grid-template-columns: 720px minmax(0, 1fr); gap: 0 40px; }
}
@media (min-width: 960px) {
  .site .links { display: flex; }
  .closing[hidden] { display: none; }
  .two { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 0 32px; }
  .two > .advice { margin-bottom: 0; }
  .two.apart { gap: 0 48px; }
}
@media print, (min-width: 752px) {
  .due-row, .due-head { display: grid; grid-template-columns: minmax(0, 6fr) minmax(0, 6fr) minmax(0, 5fr) minmax(0, 6fr) minmax(0, 9fr) 88px; gap: 0 12px; align-items: start; }
  .due-row p { grid-area: auto !important; text-align: left !important; }
  .due-row .found { grid-column: 4 / -1 !important; }
  .due-row .chance { text-align: right !important; }
  .due-head { margin-top: 24px; align-items: end; font-size: 0.8125rem; color: var(--soft); }
  .due-head .number { text-align: right; }
  .due-head .bar text { font-size: 14px; }
  .due-row .chart { margin: 0; }
  section.due { margin-top: 16px; }
  section.due > h2 { margin-bottom: 0; }
  .measure-row { grid-template-columns: minmax(0, 7fr) minmax(0, 4fr) minmax(0, 12fr) 72px; }
  .measure-row .who, .measure-row .fleet, .measure-row .what, .measure-row .to { grid-area: auto; }
  .measure-row .to { order: 1; text-align: right; }
}
/* A bar beside the other columns would be too small to read, so it goes below two of them. */
@media screen and (min-width: 752px) and (max-width: 959px) {
  .due-row, .due-head { grid-template-columns: minmax(0, 8fr) minmax(0, 9fr) minmax(0, 8fr) minmax(0, 12fr) 72px; }
  .due-row .when, .due-head > :first-child { grid-area: 1 / 1 / 3 / 2 !important; }
  .due-row .who, .due-head > :nth-child(2) { grid-area: 1 / 2 / 3 / 3 !important; }
  .due-row .chart, .due-head > .bar { grid-area: 2 / 3 / 3 / 5 !important; }
  .due-row .chance, .due-head > .number { grid-area: 1 / 5 / 3 / 6 !important; }
}
/* The months shrink with the bar’s column. */
@media screen and (min-width: 960px) and (max-width: 1159px) {
  .due-head .bar text { font-size: 17px; }
}
${PRINT_STYLES}`;
