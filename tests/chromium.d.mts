export const CHROMIUM_FLAGS: string[];
/** Path of a Chromium; null where there is none. The environment variable CHROMIUM goes first. */
export function findChromium(): string | null;
/** As findChromium, but installs it with apt on Debian and its kin when run as root. */
export function needChromium(): string | null;
