import { dateText } from "../text/formats.ts";
import { t } from "../text/text.ts";

const DAY_ms = 86_400_000;

const CLOCK = { hour: "2-digit", minute: "2-digit", hour12: false } as const;
const WEEKDAY = { weekday: "short" } as const;
const DAY = { day: "numeric", month: "short", year: "numeric" } as const;

/** "Thu 12 Nov 2026, 21:15", in the machine's own time zone. */
export function fullWhen(iso: string): string {
  const date = new Date(iso);
  return `${dateText(date, { ...WEEKDAY, ...DAY }).replace(",", "")}, ${dateText(date, CLOCK)}`;
}

/** As short as it stays clear: "today 14:02", "Fri 19:40" within the week, else "12 Nov 2026". */
export function shortWhen(iso: string, now: Date = new Date()): string {
  const date = new Date(iso);
  if (date.toDateString() === now.toDateString()) return t("card.today", { time: dateText(date, CLOCK) });
  const age = now.getTime() - date.getTime();
  return age >= 0 && age < 6 * DAY_ms ? `${dateText(date, WEEKDAY)} ${dateText(date, CLOCK)}` : dateText(date, DAY);
}

/** "Thu 12 Nov 2026". */
export function dayText(iso: string): string {
  return dateText(new Date(iso), { ...WEEKDAY, ...DAY }).replace(",", "");
}

/** "21:15". */
export function timeText(iso: string): string {
  return dateText(new Date(iso), CLOCK);
}
