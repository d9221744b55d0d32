import { html } from 'ghtml';
import { each } from './layout.js';

export interface Column<Row> {
  head: string;
  /** The cell as text, or as HTML if `raw`. */
  cell: (row: Row) => string;
  raw?: boolean;
  kind?: 'number' | 'date';
}

/** A table that becomes blocks on a phone, each cell below its column's name; the first column heads the row. */
export function dataTable<Row>(
  caption: string,
  columns: readonly Column<Row>[],
  rows: readonly Row[],
): string {
  const cell = ({ head, cell: of, raw, kind }: Column<Row>, row: Row, index: number): string => {
    const inner = raw ? of(row) : html`${of(row)}`;
    return index === 0
      ? html`<th scope="row">!${inner}</th>`
      : html`<td class="${kind ?? ''}" data-label="${head}">!${inner}</td>`;
  };
  return html`<table class="stacked">
    <caption>
      ${caption}
    </caption>
    <thead>
      <tr>
        !${each(columns, ({ head }) => html`<th scope="col">${head}</th>`)}
      </tr>
    </thead>
    <tbody>
      !${each(
        rows,
        (row) =>
          html`<tr>
            !${each(columns, (column, index) => cell(column, row, index))}
          </tr>`,
      )}
    </tbody>
  </table>`;
}
