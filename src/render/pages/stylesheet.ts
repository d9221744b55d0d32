/**
 * The one stylesheet of the pages: black on white, with room on a phone and on paper. No colour says anything by itself.
 */
export const STYLESHEET = `
:root { --ink: #111; --line: #555; --pale: #f1f1f1; }
* { box-sizing: border-box; }
html { font: 16px/1.45 system-ui, sans-serif; color: var(--ink); background: #fff; -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 62rem; padding: 0 1rem 2rem; }
a { color: inherit; text-underline-offset: 0.15em; }
:focus-visible { outline: 3px solid #000; outline-offset: 2px; }
.skip { position: absolute; left: -100rem; }
.skip:focus { position: static; }
header { display: flex; flex-wrap: wrap; gap: 0.5rem 1.25rem; align-items: center; padding: 0.75rem 0; border-bottom: 2px solid var(--ink); }
header nav { display: flex; flex-wrap: wrap; gap: 0.5rem 1.25rem; }
header form { margin-left: auto; display: flex; flex-wrap: wrap; gap: 0.25rem 0.75rem; align-items: center; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 1rem 0 0.5rem; overflow-wrap: anywhere; }
h2 { font-size: 1.2rem; margin: 1.75rem 0 0.5rem; border-bottom: 1px solid var(--line); }
h3 { font-size: 1rem; margin: 1.25rem 0 0.25rem; }
p, ul, ol, dl, table, figure, form { margin: 0.5rem 0; }
li { margin: 0.25rem 0; }
label { display: block; font-weight: 600; }
input, select, button { font: inherit; color: inherit; padding: 0.4rem 0.6rem; border: 1px solid var(--ink); border-radius: 0; background: #fff; max-width: 100%; }
button { font-weight: 600; cursor: pointer; background: var(--pale); }
.fields { display: flex; flex-wrap: wrap; gap: 0.75rem 1rem; align-items: end; }
.wide { width: 32rem; }
dl.facts { display: grid; grid-template-columns: max-content 1fr; gap: 0.1rem 1rem; }
dl.facts dt { font-weight: 600; }
dl.facts dd { margin: 0; overflow-wrap: anywhere; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; font-size: 0.9rem; }
caption { text-align: left; font-weight: 600; padding: 0.25rem 0; }
th, td { border: 1px solid var(--line); padding: 0.25rem 0.4rem; text-align: left; vertical-align: top; overflow-wrap: break-word; }
thead th { background: var(--pale); }
.number { text-align: right; white-space: nowrap; }
.date { white-space: nowrap; }
table.by-hand { width: 100%; table-layout: fixed; }
table.by-hand td { height: 2.1rem; }
figure { border: 1px solid var(--line); }
figure svg { display: block; min-width: 600px; max-width: 760px; width: 100%; height: auto; }
.strong { border: 2px solid var(--ink); padding: 0.5rem 0.75rem; }
.strong p, .strong ul { margin: 0.25rem 0; }
.quiet { font-size: 0.85rem; }
.source { font-size: 0.85rem; }
@media (max-width: 40rem) {
  table.stacked thead { position: absolute; left: -100rem; }
  table.stacked, table.stacked caption, table.stacked tbody, table.stacked tr, table.stacked th, table.stacked td { display: block; width: 100%; }
  table.stacked tr { border: 1px solid var(--line); margin: 0 0 0.5rem; }
  table.stacked th, table.stacked td { border: 0; text-align: left; white-space: normal; padding: 0.1rem 0.4rem; }
  table.stacked td::before { content: attr(data-label) ": "; font-weight: 600; }
  table.by-hand { font-size: 0.75rem; }
  th, td { padding: 0.2rem; }
}
@media print {
  @page { size: A4; margin: 11mm; }
  html { font-size: 9pt; line-height: 1.35; }
  body { max-width: none; padding: 0; }
  header, .skip, .on-screen { display: none; }
  a { text-decoration: none; }
  h2, h3, caption { break-after: avoid; }
  tr, figure, .strong { break-inside: avoid; }
  thead { display: table-header-group; }
  thead th { background: none; }
  .scroll { overflow: visible; }
  figure { border: 0; }
  figure svg { min-width: 0; width: 118mm; }
  table.by-hand td { height: 8mm; }
}
`;
