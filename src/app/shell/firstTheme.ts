import type { Theme } from "../store/state.ts";
import { app } from "../store/useApp.ts";

const KEY = "elbowroom theme";
/** Colour of the browser's own bars beside the page: the sheet's. */
const BARS: Readonly<Record<Theme, string>> = { daylight: "#ffffff", garage: "#182023" };

/** Begins in the light that was chosen last, before the database has been read: a dark garage is not lit up. */
export function showLastTheme(): void {
  try {
    const theme = localStorage.getItem(KEY);
    if (theme === "garage") app.setState({ theme });
  } catch {
    // without it the page begins in daylight
  }
}

export function rememberTheme(theme: Theme): void {
  document.querySelector('meta[name="theme-color"]')?.setAttribute("content", BARS[theme]);
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // the session in the database remembers it too
  }
}
