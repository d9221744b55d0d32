import { html } from 'ghtml';
import { DATE_FORMS } from '../../core/spreadsheet/dates.js';
import type { Import } from '../../core/vocabulary/import.js';
import { countInWords } from '../../core/words.js';
import { selectField, type Filled, type Option } from './fields.js';
import type { Made } from './layout.js';
import { dataTable } from './table.js';
import { inWords } from '../../core/rounding.js';

/** Importing a spreadsheet of visits: choose the file, review the check, confirm. */

const DATE_WORDS: Option[] = DATE_FORMS.map((form): Option => [
  form,
  {
    'YYYY-MM-DD': '2026-03-02 (year first)',
    'DD.MM.YYYY': '02.03.2026 (day first)',
    'DD/MM/YYYY': '02/03/2026 (day first)',
    'MM/DD/YYYY': '03/02/2026 (month first)',
  }[form],
]);

export function importPage(filled: Filled, said: string | null): Made {
  const main = html`!${said === null ? '' : html`<section class="refused" role="alert"><h2>${said}</h2></section>`}
    <form class="narrow" method="post" action="/import" enctype="multipart/form-data">
      !${selectField(filled, 'dates', 'How the file writes dates', DATE_WORDS, '2 March 2026 as an example')}
      <div class="field">
        <label for="file">Spreadsheet</label>
        <span class="hint" id="file-hint">saved as CSV, at most 200 MiB</span>
        <input
          id="file"
          name="file"
          type="file"
          accept=".csv,text/csv"
          required
          aria-describedby="file-hint"
        />
      </div>
      <p class="field"><button class="main wide" type="submit">Check the file</button></p>
      <p class="small soft">Nothing is recorded yet: the next page shows what the check found.</p>
    </form>
    !${columns()}`;
  return { title: 'Import a spreadsheet', main };
}

/** The headings a first file needs, and an example to copy. */
const columns = (): string =>
  html`<section class="part">
    <h2>What the file looks like</h2>
    <p>
      One row for each reading, piece of work or torque. The vehicle, the date and the work order say which
      visit a row belongs to. The vehicles must be recorded first.
    </p>
    <pre class="sample">
vehicle,date,odometer,odometerUnit,workOrder,entry,axle,side,pad,value,unit,gauge
KR 4471,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,inner,6.5,mm,pad-gauge
KR 4471,2026-03-02,61240,km,WO-20817,pad-thickness,front,left,outer,7,mm,pad-gauge</pre>
    <p>
      Headings and terms may be in any case, columns in any order, with commas, semicolons or tabs between the
      cells and decimal points or commas.
    </p>
  </section>`;

/** @param token confirms the import; null if the file cannot be imported */
export function checkedPage(report: Import, token: string | null, name: string): Made {
  const { errorsTotal, rows, rowsAdded, rowsSkipped, visitsAdded, visitsExtended, vehicles } = report;
  if (errorsTotal > 0) return refusedPage(report, name);
  const isNew = token !== null && rowsAdded + visitsExtended > 0;
  const found =
    rows === 0
      ? 'no rows below its headings.'
      : `${countInWords(rows, 'row')} of ${countInWords(vehicles, 'vehicle')}, and ${isNew ? 'all of them can be recorded' : 'all of them are already recorded'}.`;
  const main = html`<p>${name} has ${found}</p>
    <dl class="facts">
      <dt>New visits</dt>
      <dd>${inWords(visitsAdded)}</dd>
      <dt>Visits extended</dt>
      <dd>${inWords(visitsExtended)}</dd>
      <dt>New rows</dt>
      <dd>${inWords(rowsAdded)}</dd>
      <dt>Already recorded, skipped</dt>
      <dd>${inWords(rowsSkipped)}</dd>
    </dl>
    !${
      !isNew
        ? ''
        : html`<form class="narrow" method="post" action="/import/accept">
            <input type="hidden" name="once" value="${token}" />
            <p class="field">
              <button class="main wide" type="submit">Record ${countInWords(rowsAdded, 'row')}</button>
            </p>
            <p class="small soft">All rows are recorded, or none. Accepting twice records them once.</p>
          </form>`
    }
    <p><a href="/import">Choose another file</a></p>`;
  return { title: isNew ? 'The file can be imported' : 'The file has nothing new', main };
}

function refusedPage({ errorsTotal, errors, rows }: Import, name: string): Made {
  const main = html`<section class="refused" role="alert">
      <h2>Nothing was recorded: ${countInWords(errorsTotal, 'entry', 'entries')} to correct.</h2>
      <p>
        ${rows === 0 ? '' : `${name} has ${countInWords(rows, 'row')}. `}Correct
        ${errorsTotal === 1 ? 'it' : 'them'} in the spreadsheet and check it again.
      </p>
    </section>
    !${errors.length < errorsTotal ? html`<p>The first ${errors.length} are shown.</p>` : ''}
    !${dataTable(
      'What to correct, by line',
      [
        {
          head: 'Line',
          cell: ({ line }) => html`<span class="narrow-only" hidden>Line </span>${line}`,
          raw: true,
        },
        { head: 'Column', cell: ({ column }) => column ?? 'the whole row' },
        { head: 'What is wrong', cell: ({ detail }) => detail },
      ],
      errors,
    )}
    <p><a href="/import">Choose another file</a></p>`;
  return { title: 'The file cannot be imported yet', main };
}

const STATES: Record<Import['state'], string> = {
  receiving: 'The file is being received',
  checking: 'The rows are being checked',
  forecasting: 'The forecasts are being computed',
  writing: 'The visits are being recorded',
  done: 'The file is recorded',
  refused: 'The file was refused',
  failed: 'The import failed',
};

/** The progress of an import; the browser refreshes until it has ended. */
export function progressPage(report: Import): Made {
  const {
    state,
    vehiclesChecked,
    vehiclesForecast,
    vehicles,
    rowsAdded,
    visitsAdded,
    visitsExtended,
    detail,
  } = report;
  if (state === 'refused') return refusedPage(report, 'The file');
  const hasEnded = report.finishedAt !== null;
  const words = hasEnded
    ? state === 'done'
      ? `${countInWords(rowsAdded, 'row')} recorded: ${countInWords(visitsAdded, 'new visit')}, ${countInWords(visitsExtended, 'visit')} extended.`
      : (detail ?? 'Nothing was recorded.')
    : `${inWords(vehiclesChecked)} of ${countInWords(vehicles, 'vehicle')} checked, ${inWords(vehiclesForecast)} forecast. This page updates by itself.`;
  const main = html`<p role="status">${words}</p>
    !${hasEnded ? html`<p><a href="/due-soon">See what is due</a></p>` : ''}`;
  return { title: STATES[state], main, refreshSeconds: hasEnded ? undefined : 2 };
}
