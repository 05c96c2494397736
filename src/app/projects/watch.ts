import { app } from "../store/useApp.ts";
import { desk } from "./theDesk.ts";

/** A tab that is closed tells nobody: the watching one looks now and then whether the project has become free. */
const LOOK_ms = 2000;

/** Saves what is owed when the page is left, and takes a watched project once no other tab has it. */
export function keepWatch(): void {
  const leaving = (): void => void desk.flush();
  addEventListener("pagehide", leaving);
  document.addEventListener("visibilitychange", leaving);
  setInterval(() => {
    if (document.visibilityState === "visible" && app.getState().standing === "watched") void desk.takeIfFree();
  }, LOOK_ms);
}
