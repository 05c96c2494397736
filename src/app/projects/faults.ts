/** The project was saved by another tab since this one read it. */
export class NewerElsewhere extends Error {
  constructor() {
    super("This project was changed in another tab.");
  }
}

/** The database has not got the project that this page has saved in it. */
export class ThrownAway extends Error {
  constructor() {
    super("The browser no longer has this project.");
  }
}

/** Why the browser did not keep the work, and what helps, in words for the builder. */
export function troubleOf(error: unknown): string {
  const full = error instanceof Error && error.name === "QuotaExceededError";
  if (full) return "Not saved: this browser's storage is full. Save a file to keep your work.";
  const why = error instanceof Error && error.message ? ` (${error.message.replace(/\.$/, "")})` : "";
  return `Not saved: this browser does not let the page store anything${why}. Save a file to keep your work.`;
}
