const DAY_ms = 86_400_000;

function format(options: Intl.DateTimeFormatOptions): (date: Date) => string {
  const formatter = new Intl.DateTimeFormat("en-GB", options);
  return (date) => formatter.format(date);
}

const clock = format({ hour: "2-digit", minute: "2-digit", hour12: false });
const weekday = format({ weekday: "short" });
const full = format({ weekday: "short", day: "numeric", month: "short", year: "numeric" });
const day = format({ day: "numeric", month: "short", year: "numeric" });

/** "Thu 12 Nov 2026, 21:15", in the machine's own time zone. */
export function fullWhen(iso: string): string {
  const date = new Date(iso);
  return `${full(date).replace(",", "")}, ${clock(date)}`;
}

/** As short as it stays clear: "today 14:02", "Fri 19:40" within the week, else "12 Nov 2026". */
export function shortWhen(iso: string, now: Date = new Date()): string {
  const date = new Date(iso);
  if (date.toDateString() === now.toDateString()) return `today ${clock(date)}`;
  const age = now.getTime() - date.getTime();
  return age >= 0 && age < 6 * DAY_ms ? `${weekday(date)} ${clock(date)}` : day(date);
}
