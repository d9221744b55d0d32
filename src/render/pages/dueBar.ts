import { html } from 'ghtml';
import { toDay, toFullDate } from '../../core/calendar.js';
import { dateInWords, monthOnly } from '../../core/words.js';
import { each } from './layout.js';
import type { ListedAxle } from './lists.js';

/** The bars of the due list, which show when an axle reaches its limit, and the scale above them. */

export interface TimeScale {
  from: number;
  to: number;
  today: number;
}

const BAR_WIDTH = 320;
const PAST_DAYS = 45;

/** From before today to beyond the horizon, the same for every bar. */
export function timeScale(today: string, horizon: string): TimeScale {
  const [now, end] = [toDay(today), toDay(horizon)];
  const ahead = Math.max(30, end - now);
  return { from: now - Math.max(PAST_DAYS, ahead / 4), to: end + ahead / 2, today: now };
}

const place = ({ from, to }: TimeScale, day: number): number => ((day - from) / (to - from)) * BAR_WIDTH;

/** The first days of months on a scale, as many as fit. */
function monthsOf({ from, to }: TimeScale): number[] {
  const first = toFullDate(Math.ceil(from)).slice(0, 7);
  let [year, month] = first.split('-').map(Number) as [number, number];
  const days: number[] = [];
  for (;;) {
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
    const day = toDay(`${year}-${String(month).padStart(2, '0')}-01`);
    if (day > to) break;
    days.push(day);
  }
  const every = Math.ceil(days.length / 5);
  return days.filter((_, index) => index % every === 0);
}

export const scaleHead = (scale: TimeScale): string =>
  html`<svg class="bar" viewBox="0 0 ${BAR_WIDTH} 16" width="${BAR_WIDTH}" height="16" aria-hidden="true">
    <text
      class="ink"
      x="${place(scale, scale.today)}"
      y="12"
      text-anchor="middle"
      font-size="12"
      font-weight="700"
    >
      today
    </text>
    !${each(
      monthsOf(scale).filter((day) => Math.abs(place(scale, day) - place(scale, scale.today)) > 44),
      (day) =>
        html`<text class="soft-text" x="${place(scale, day)}" y="12" text-anchor="middle" font-size="12"
          >${monthOnly(day)}</text
        >`,
    )}
  </svg>`;

/** The date of reaching the limit: thin 80 %, thick 50 %, a tick at the early date. Arrows point off the scale. */
export function bar(
  { earlyDate, lateDate, lowerQuartile, upperQuartile }: ListedAxle,
  scale: TimeScale,
): string {
  const at = (date: string | null, beyond: number): number =>
    date === null ? beyond : Math.min(Math.max(place(scale, toDay(date)), -10), BAR_WIDTH + 10);
  const [early, late] = [at(earlyDate, -10), at(lateDate, BAR_WIDTH + 10)];
  const [from, to] = [at(lowerQuartile, early), at(upperQuartile, late)];
  const today = place(scale, scale.today);
  const line = (x1: number, x2: number, width: number) =>
    html`<line
      class="accent-line"
      x1="${x1.toFixed(1)}"
      x2="${x2.toFixed(1)}"
      y1="12"
      y2="12"
      stroke-width="${width}"
    />`;
  const arrow = (x: number, way: 1 | -1) =>
    html`<path
      class="accent-line"
      d="M${x - 5 * way} 7 L${x} 12 L${x - 5 * way} 17"
      fill="none"
      stroke-width="1.5"
    />`;
  return html`<svg
    class="bar"
    viewBox="0 0 ${BAR_WIDTH} 24"
    width="${BAR_WIDTH}"
    height="24"
    role="img"
    aria-label="${barInWords(earlyDate, lateDate)}"
  >
    !${each(monthsOf(scale), (day) => html`<line class="hair-line" x1="${place(scale, day).toFixed(1)}" x2="${place(scale, day).toFixed(1)}" y1="0" y2="24" />`)}
    <line class="ink-line" x1="${today.toFixed(1)}" x2="${today.toFixed(1)}" y1="0" y2="24" />
    !${
      late < 0
        ? arrow(2, -1)
        : html`!${line(Math.max(early, 0), Math.min(late, BAR_WIDTH), 1.5)}
          !${line(Math.max(from, 0), Math.max(Math.min(to, BAR_WIDTH), 0), 5)}
          !${early >= 0 ? html`<line class="accent-line" x1="${early.toFixed(1)}" x2="${early.toFixed(1)}" y1="6" y2="18" stroke-width="3" />` : arrow(2, -1)}
          !${late > BAR_WIDTH ? arrow(BAR_WIDTH - 1, 1) : ''}`
    }
  </svg>`;
}

const barInWords = (early: string | null, late: string | null): string =>
  early === null
    ? 'no early date'
    : `between ${dateInWords(early)} and ${late === null ? 'beyond 30 years' : dateInWords(late)}`;
