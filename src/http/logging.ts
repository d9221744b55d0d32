import { CALENDARS } from './routes/calendars.js';

/** What the log may say of a request: no key, and no token of a calendar's address. */

function withoutToken(url: string): string {
  try {
    return decodeURIComponent(url).includes(`${CALENDARS}/`) ? `${CALENDARS}/[Redacted]` : url;
  } catch {
    return '[unreadable]';
  }
}

/** @param level the least that is logged */
export const logging = (level: string) => ({
  level,
  redact: {
    paths: ['req.url', 'req.headers.authorization', 'req.headers.cookie'],
    censor: (value: unknown, path: string[]) =>
      path.at(-1) === 'url' ? withoutToken(String(value)) : '[Redacted]',
  },
});
