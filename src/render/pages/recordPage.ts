import { itemAt } from '../../core/items.js';
import { html } from 'ghtml';
import { axleInWords, capital, positionInWords, termInWords, workInWords } from '../../core/words.js';
import type { Axle, Side } from '../../core/vocabulary/terms.js';
import type { AxleHints, HintsByAxle } from '../../forms/hints.js';
import {
  CONDITION_ROWS,
  FOUND_STATES,
  groupField,
  POINTS,
  TORQUE_POSITIONS,
  torqueField,
  WHYS,
  workField,
  type AxleForm,
  type Group,
  type Slot,
  type VisitForm,
  type WorkChoice,
} from '../../forms/visitForm.js';
import {
  areaField,
  checkbox,
  errorOf,
  errorText,
  measureField,
  radios,
  refusal,
  section,
  select,
  selectField,
  smallField,
  textField,
  wayBack,
  wrongClass,
  type Filled,
  type Option,
} from './fields.js';
import { each, type Made } from './layout.js';

/** The visit form, in the order of the work: the visit, each axle in full, the road test. */

export interface RecordPage extends Filled {
  title: string;
  vehicleId: string;
  name: string;
  description: string;
  form: VisitForm;
  hints: HintsByAxle;
  gauges: Readonly<Record<Group, readonly Option[]>>;
  odometerHint: string | null;
  today: string;
  action: string;
  /** Token that makes the form record only once, however often it is sent. */
  once: string;
  /** Whether the form records a visit, corrects one, or adds entries to one. */
  purpose:
    | { kind: 'record'; already: readonly { id: string; words: string }[] }
    | { kind: 'add'; visit: string }
    | { kind: 'correct'; visit: string; version: string; restCount: number; mayVoid: boolean };
}

const SIDE_OPTIONS: readonly Option[] = [
  ['', 'both sides'],
  ['left', 'left only'],
  ['right', 'right only'],
];
const LENGTHS: readonly Option[] = [
  ['mm', 'mm'],
  ['in', 'inch'],
  ['in/32', '1/32 in'],
];
const GROUP_UNITS: Record<Group, readonly Option[]> = {
  linings: LENGTHS,
  rotors: LENGTHS.slice(0, 2),
  runout: LENGTHS.slice(0, 2),
  drums: LENGTHS.slice(0, 2),
};
const TORQUE_UNITS: readonly Option[] = [
  ['Nm', 'N·m'],
  ['ft-lbf', 'ft·lbf'],
];

export function recordPage(page: RecordPage): Made {
  const { title, name, description, purpose } = page;
  const heading = html`<h1>${name}</h1>
    <p class="under soft">${description}</p>`;
  const form = html`<form class="narrow" method="post" action="${page.action}" novalidate>
    <input type="hidden" name="once" value="${page.once}" />
    !${purpose.kind === 'correct' ? html`<input type="hidden" name="version" value="${purpose.version}" />` : ''}
    !${purpose.kind === 'correct' ? reasonField(page) : ''}
    !${purpose.kind === 'add' ? '' : visitFields(page)}
    !${each(page.form.axles, (axle) => axleFields(page, axle))} !${roadTestFields(page)}
    !${purpose.kind === 'correct' ? kept(purpose.restCount) : ''}
    <p class="field"><button class="main wide" type="submit">${saveWords(purpose)}</button></p>
    <p class="small soft">${afterWords(purpose)}</p>
    !${wayBack(page.vehicleId, name)}
  </form>`;
  const main = html`<h2 class="task">${title}</h2>
    !${purpose.kind === 'record' ? alreadyRecorded(purpose.already) : ''}
    !${refusal(page.errors, (field) => labelOf(page.form, field), form)} !${form}
    !${purpose.kind === 'correct' && purpose.mayVoid ? voidForm(page, purpose) : ''}`;
  return { title: `${title}: ${name}`, heading, main };
}

const saveWords = ({ kind }: RecordPage['purpose']): string =>
  ({ record: 'Save the visit', add: 'Add to the visit', correct: 'Save the correction' })[kind];

const afterWords = ({ kind }: RecordPage['purpose']): string =>
  ({
    record: 'Work done later can be added to this visit. Saving twice records it once.',
    add: 'Only what you enter here is added. Saving twice adds it once.',
    correct: 'What was recorded before stays in the history of the visit.',
  })[kind];

/** Points to visits of the same day, since later work belongs to them. */
const alreadyRecorded = (visits: readonly { id: string; words: string }[]): string =>
  each(
    visits,
    ({ id, words }) =>
      html`<p class="note">
        ${words} <a href="/visits/${id}/add">Add to that visit</a> or
        <a href="/visits/${id}/correct">correct it</a>.
      </p>`,
  );

const reasonField = (page: RecordPage): string =>
  html`<section class="part">
    <h2>Why</h2>
    !${textField(page, 'reason', 'What was wrong', { required: true, maxlength: 500, hint: 'For the history, such as: two digits of the odometer were swapped.' })}
  </section>`;

const kept = (count: number): string =>
  count === 0
    ? ''
    : html`<p class="note">
        ${count === 1 ? '1 entry of this visit has' : `${count} entries of this visit have`} no field here and
        ${count === 1 ? 'stays' : 'stay'} as recorded.
      </p>`;

function visitFields(page: RecordPage): string {
  const { today, odometerHint } = page;
  return html`<section class="part">
    <h2>Visit</h2>
    <div class="fields">
      !${textField(page, 'date', 'Date', { type: 'date', max: today, required: true })}
      !${textField(page, 'workOrder', 'Work order', { maxlength: 100 })}
    </div>
    <div class="field ${wrongClass(page, 'odometer')}">
      <label for="f-odometer">Odometer</label>
      !${odometerHint === null ? '' : html`<span class="hint" id="f-odometer-hint">${odometerHint}</span>`}
      <div class="with-unit">
        <input
          id="f-odometer"
          name="odometer"
          inputmode="decimal"
          autocomplete="off"
          value="${page.values.odometer ?? ''}"
          aria-describedby="f-odometer-hint f-odometer-error"
          !${errorOf(page, 'odometer') ? 'aria-invalid="true"' : ''}
        />
        !${select(
          page,
          'odometerUnit',
          [
            ['km', 'km'],
            ['mi', 'miles'],
          ],
          'Unit of the odometer',
        )}
      </div>
      !${errorText(page, 'odometer')}
    </div>
    !${textField(page, 'technician', 'Technician', { maxlength: 100, autocomplete: 'on' })}
    !${section(page, {
      title: 'More about the visit',
      fields: [
        'time',
        'shop',
        'complaint',
        'notes',
        'odometerReplaced',
        'odometerOldFinal',
        'odometerNewStart',
        'fluid-changed',
      ],
      inner: html`<div class="fields">
          !${textField(page, 'time', 'Time', { type: 'time' })}
          !${textField(page, 'shop', 'Shop', { maxlength: 100 })}
        </div>
        !${areaField(page, 'complaint', 'Complaint')} !${areaField(page, 'notes', 'Notes')}
        !${checkbox(page, 'fluid-changed', 'Brake fluid changed')}
        !${checkbox(page, 'odometerReplaced', 'The odometer was replaced')}
        <div class="fields">
          !${textField(page, 'odometerOldFinal', 'Last reading of the old one', { mode: 'decimal' })}
          !${textField(page, 'odometerNewStart', 'First reading of the new one', { mode: 'decimal' })}
        </div>`,
    })}
  </section>`;
}

function axleFields(page: RecordPage, form: AxleForm): string {
  const { axle, brake } = form;
  const hints = page.hints[axle];
  return html`<section class="part">
    <h2>${capital(axleInWords(axle))}</h2>
    <h3>
      ${brake === 'disc' ? 'Pads' : 'Shoes'}
      <span class="hint">friction material only, thinnest point, as found</span>
    </h3>
    !${gaugeAndUnit(page, axle, 'linings')}
    !${each(slotsOf(form, 'linings', 'as-found'), (slot) => measureField(page, slot.field, measureOf(page, axle, slot)))}
    !${selectField(page, `${axle}.why`, 'Left empty because', [['', 'nothing left empty'], ...WHYS.map((why): Option => [why, why])])}
    !${brake === 'disc' ? rotorFields(page, form) : pointFields(page, form, 'drums', 'Drums')}
    !${foundAndDone(page, form, hints)} !${afterWork(page, form)}
  </section>`;
}

const slotsOf = ({ slots }: AxleForm, group: Group, taken: Slot['taken'], side?: Side): Slot[] =>
  slots.filter(
    (slot) => slot.group === group && slot.taken === taken && (side === undefined || slot.side === side),
  );

const gaugeAndUnit = (page: RecordPage, axle: Axle, group: Group): string =>
  html`<div class="fields gauge">
    !${selectField(page, groupField(axle, group, 'gauge'), 'Gauge', page.gauges[group])}
    !${selectField(page, groupField(axle, group, 'unit'), 'Unit', GROUP_UNITS[group])}
  </div>`;

function measureOf(page: RecordPage, axle: Axle, { field, side, lining }: Slot) {
  const unit = page.values[groupField(axle, 'linings', 'unit')] ?? 'mm';
  const words = LENGTHS.find(([value]) => value === unit)?.[1] ?? unit;
  const last = page.hints[axle]?.last[field];
  if (side === null)
    return { label: 'Thinnest of the axle', hint: last ?? 'if you took only one figure', unit: words };
  return { label: capital(positionInWords({ side, pad: lining })), hint: last, unit: words };
}

function rotorFields(page: RecordPage, form: AxleForm): string {
  const runout = slotsOf(form, 'runout', 'as-found');
  const inner = html`!${pointRows(page, form, 'rotors', 'as-found')}
    <h3>Run-out <span class="hint">mounted, total indicated reading</span></h3>
    !${gaugeAndUnit(page, form.axle, 'runout')}
    <div class="fields">
      !${each(runout, (slot) => textField(page, slot.field, capital(positionInWords({ side: slot.side, pad: null })), { mode: 'decimal', hint: page.hints[form.axle]?.last[slot.field] }))}
    </div>`;
  const fields = [...slotsOf(form, 'rotors', 'as-found'), ...runout].map(({ field }) => field);
  return section(page, { title: 'Rotors', fields, known: page.hints[form.axle]?.limit, inner });
}

function pointFields(page: RecordPage, form: AxleForm, group: 'drums', title: string): string {
  const fields = slotsOf(form, group, 'as-found').map(({ field }) => field);
  const inner = pointRows(page, form, group, 'as-found');
  return section(page, { title, fields, known: page.hints[form.axle]?.limit, inner });
}

function pointRows(
  page: RecordPage,
  form: AxleForm,
  group: 'rotors' | 'drums',
  taken: Slot['taken'],
): string {
  const side = (name: Side): string => {
    const slots = slotsOf(form, group, taken, name);
    const last = page.hints[form.axle]?.last[itemAt(slots, 0).field];
    const words = `${capital(name)} ${group === 'rotors' ? 'rotor' : 'drum'}`;
    return html`<div role="group" aria-label="${words}">
      <h3>${capital(name)} !${last === undefined ? '' : html`<span class="hint">${last}</span>`}</h3>
      <div class="four">
        !${each(slots, (slot, index) => smallField(page, slot.field, `Point ${itemAt(POINTS, index)}`, words))}
      </div>
    </div>`;
  };
  return html`!${gaugeAndUnit(page, form.axle, group)} !${side('left')} !${side('right')}`;
}

function foundAndDone(page: RecordPage, form: AxleForm, hints: AxleHints | undefined): string {
  const { axle, work, fasteners } = form;
  const fields = [
    ...CONDITION_ROWS.flatMap((row) => [`${axle}.condition.${row}.what`, `${axle}.condition.${row}.state`]),
    ...work.flatMap(({ kind }) => [
      workField(axle, kind),
      `${workField(axle, kind)}.new`,
      `${workField(axle, kind)}.part`,
    ]),
    ...fasteners.flatMap((_, index) => torqueFields(axle, index)),
  ];
  const checks = hints?.checks ?? [];
  const inner = html`!${
      checks.length === 0 ? '' : html`<p class="soft">From last time: ${checks.join(' ')}</p>`
    }
    !${each(CONDITION_ROWS, (row) => conditionRow(page, form, row))}
    <h3>Work done</h3>
    !${each(work, (choice) => workRow(page, axle, choice, hints))}
    !${each(fasteners, (fastener, index) => torqueRow(page, form, fastener, index, hints))}
    !${selectField(page, `${axle}.torque.unit`, 'Unit of the torques', TORQUE_UNITS)}`;
  const known =
    checks.length === 0 ? null : checks.length === 1 ? '1 check is open' : `${checks.length} checks are open`;
  return section(page, { title: 'Found and done', fields, known, inner });
}

const torqueFields = (axle: Axle, index: number): string[] =>
  (['left', 'right'] as const).flatMap((side) =>
    TORQUE_POSITIONS.map((position) => torqueField(axle, index, side, position)),
  );

function conditionRow(page: RecordPage, { axle, parts }: AxleForm, row: number): string {
  const field = `${axle}.condition.${row}`;
  return html`<div class="fields">
    !${selectField(page, `${field}.what`, 'Part', [['', 'choose'], ...parts.map(({ value, words }): Option => [value, words])])}
    !${selectField(page, `${field}.state`, 'Found', [['', 'choose'], ...FOUND_STATES.map((state): Option => [state, termInWords(state)])])}
  </div>`;
}

function workRow(
  page: RecordPage,
  axle: Axle,
  { kind, fits }: WorkChoice,
  hints: AxleHints | undefined,
): string {
  const field = workField(axle, kind);
  const words = capital(workInWords(kind));
  const specified = hints?.fitted[kind];
  return html`<div class="work ${wrongClass(page, field)}">
    !${checkbox(page, field, words)} !${select(page, `${field}.side`, SIDE_OPTIONS, `${words}: which side`)}
    !${errorText(page, field)}
    !${
      fits === null
        ? ''
        : html`<div class="fields">
            !${textField(page, `${field}.new`, 'New, mm', { mode: 'decimal', hint: specified == null ? undefined : `specified ${specified}` })}
            !${textField(page, `${field}.part`, 'Part number', { maxlength: 200 })}
          </div>`
    }
  </div>`;
}

function torqueRow(
  page: RecordPage,
  { axle }: AxleForm,
  fastener: string,
  index: number,
  hints: AxleHints | undefined,
): string {
  const words = capital(termInWords(fastener));
  const specified = hints?.torques[fastener];
  return html`<div role="group" aria-label="${words}">
    <h3>${words} !${specified === undefined ? '' : html`<span class="hint">${specified}</span>`}</h3>
    <div class="four">
      !${each(torqueFields(axle, index), (field) => {
        const [side, position] = field.split('.').slice(-2) as [string, string];
        return smallField(page, field, `${capital(side)} ${position}`, words);
      })}
    </div>
  </div>`;
}

/** As left: measurements of the parts that went out. */
function afterWork(page: RecordPage, form: AxleForm): string {
  const linings = slotsOf(form, 'linings', 'as-left');
  const group = form.brake === 'disc' ? 'rotors' : 'drums';
  const points = slotsOf(form, group, 'as-left');
  const inner = html`<p class="soft">
      Measure the parts that went out, with the gauge and the unit chosen above.
    </p>
    !${each(linings, (slot) => measureField(page, slot.field, measureOf(page, form.axle, slot)))}
    !${each(['left', 'right'] as const, (side) => {
      const words = `${capital(side)} ${group === 'rotors' ? 'rotor' : 'drum'}, as left`;
      return html`<div role="group" aria-label="${words}">
        <h3>${words}</h3>
        <div class="four">
          !${each(slotsOf(form, group, 'as-left', side), (slot) => smallField(page, slot.field, `Point ${slot.point ?? ''}`, words))}
        </div>
      </div>`;
    })}`;
  return section(page, {
    title: 'Measured after the work',
    fields: [...linings, ...points].map(({ field }) => field),
    inner,
  });
}

const roadTestFields = (page: RecordPage): string =>
  html`<section class="part">
    <h2>Road test</h2>
    !${radios(page, 'roadTest.pulls', 'Pulls', [
      ['none', 'none'],
      ['left', 'left'],
      ['right', 'right'],
    ])}
    <div class="fields">
      !${radios(page, 'roadTest.pulsation', 'Pulsation', [
        ['no', 'no'],
        ['yes', 'yes'],
      ])}
      !${radios(page, 'roadTest.noise', 'Noise', [
        ['no', 'no'],
        ['yes', 'yes'],
      ])}
    </div>
    !${areaField(page, 'roadTest.notes', 'Notes on the road test')}
  </section>`;

const voidForm = (page: RecordPage, purpose: { version: string; visit: string }): string =>
  html`<section class="part">
    <h2>Recorded by mistake?</h2>
    <form class="narrow" method="post" action="/visits/${purpose.visit}/void">
      <input type="hidden" name="once" value="${page.once}-void" />
      <input type="hidden" name="version" value="${purpose.version}" />
      !${textField({ values: {}, errors: [] }, 'voidReason', 'Why the visit does not count', { required: true, maxlength: 500 })}
      <p class="field"><button class="second" type="submit">Void the visit</button></p>
      <p class="small soft">A voided visit no longer counts. It stays in the history.</p>
    </form>
  </section>`;

/** A field's name in the error summary; null if the form has no such field. */
function labelOf({ axles }: VisitForm, field: string): string | null {
  const simple: Record<string, string> = {
    date: 'Date',
    time: 'Time',
    workOrder: 'Work order',
    odometer: 'Odometer',
    odometerOldFinal: 'Odometer: last reading of the old one',
    odometerNewStart: 'Odometer: first reading of the new one',
    technician: 'Technician',
    shop: 'Shop',
    complaint: 'Complaint',
    notes: 'Notes',
    reason: 'What was wrong',
    'fluid-changed': 'Brake fluid',
    'roadTest.pulls': 'Road test: pulls',
    'roadTest.pulsation': 'Road test: pulsation',
    'roadTest.noise': 'Road test: noise',
    'roadTest.notes': 'Notes on the road test',
  };
  if (simple[field] !== undefined) return simple[field];
  const form = axles.find(({ axle }) => field.startsWith(`${axle}.`));
  if (!form) return null;
  const slot = form.slots.find((each) => each.field === field);
  const name = capital(axleInWords(form.axle));
  if (slot) {
    const what = {
      linings: form.brake === 'disc' ? 'pad' : 'shoe',
      rotors: 'rotor',
      runout: 'run-out',
      drums: 'drum',
    }[slot.group];
    return [
      name,
      slot.side,
      slot.lining,
      what,
      slot.point && `point ${slot.point}`,
      slot.taken === 'as-left' && 'as left',
    ]
      .filter(Boolean)
      .join(' ');
  }
  const work = form.work.find(({ kind }) => field.startsWith(workField(form.axle, kind)));
  if (work) {
    const more = field.endsWith('.new') ? ', thickness' : field.endsWith('.part') ? ', part number' : '';
    return `${name}: ${workInWords(work.kind)}${more}`;
  }
  const torque = /\.torque\.(\d+)\.(left|right)\.(\d+)$/.exec(field);
  if (torque)
    return `${name}: ${termInWords(itemAt(form.fasteners, Number(torque[1])))}, ${torque[2]} ${torque[3]}`;
  const condition = /\.condition\.(\d+)\./.exec(field);
  if (condition) return `${name}: what was found, row ${condition[1]}`;
  if (field.endsWith('.why')) return `${name}: why fields are empty`;
  return field.endsWith('.gauge') ? `${name}: gauge` : `${name}: entries`;
}
