import { t } from "../text/text.ts";

/** The project was saved by another tab since this one read it. */
export class NewerElsewhere extends Error {
  constructor() {
    super(t("projects.fault.newerElsewhere"));
  }
}

/** The database has not got the project that this page has saved in it. */
export class ThrownAway extends Error {
  constructor() {
    super(t("projects.fault.thrownAway"));
  }
}

/** Why the browser did not keep the work, and what helps, in words for the builder. */
export function troubleOf(error: unknown): string {
  // the browser's own bound is reached, or the disk's
  const isFull = isDiskFull(error) || (error instanceof Error && error.name === "QuotaExceededError");
  if (isFull) return t("projects.fault.full");
  return error instanceof Error && error.message
    ? t("projects.fault.refusedBecause", { why: error.message.replace(/\.$/, "") })
    : t("projects.fault.refused");
}

/** Chromium then ends its database with what the system said to it. */
export function isDiskFull(error: unknown): boolean {
  return error instanceof Error && /NO_SPACE|ENOSPC/.test(error.message);
}
