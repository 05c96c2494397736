import { shortWhen } from "../card/when.ts";
import { t } from "../text/text.ts";
import type { ProjectRecord } from "./records.ts";
import { KEPT_DELETED_days } from "./shelfActions.ts";

const DAY_ms = 86_400_000;

/** "changed today 14:02 · 16 points, 24 parts · 12 steps · 340 kB" */
export function factsLine({ changed_ms, points, parts, steps, bytes }: ProjectRecord, now = new Date()): string {
  return [
    t("projects.facts.changed", { when: whenOf(changed_ms, now) }),
    t("projects.facts.contents", {
      points: t("projects.facts.points", { count: points }),
      parts: t("projects.facts.parts", { count: parts }),
    }),
    steps > 1 ? t("projects.facts.steps", { count: steps - 1 }) : t("projects.facts.noStep"),
    sizeWords(bytes),
  ].join(" · ");
}

export function whenOf(ms: number, now = new Date()): string {
  return shortWhen(new Date(ms).toISOString(), now);
}

/** How long a deleted project can still be put back. */
export function deletedLine({ deleted_ms }: ProjectRecord, now_ms = Date.now()): string {
  const left = Math.ceil(((deleted_ms ?? 0) + KEPT_DELETED_days * DAY_ms - now_ms) / DAY_ms);
  // a clock that was moved must not tell of years
  return t("projects.goesIn", { count: Math.max(1, Math.min(KEPT_DELETED_days, left)) });
}

/** In the decimal units that browsers and disks use. */
export function sizeWords(bytes: number): string {
  if (bytes < 1000) return t("projects.facts.bytes", { count: bytes });
  if (bytes < 999_500) return `${Math.round(bytes / 1000)} kB`;
  if (bytes < 999_500_000) return `${round(bytes / 1e6)} MB`;
  return `${round(bytes / 1e9)} GB`;
}

function round(value: number): string {
  return value < 10 ? value.toFixed(1) : value.toFixed(0);
}
