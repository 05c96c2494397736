import type { Desk } from "./desk.ts";

const PROJECT = "#project/";

/** The project that the page's address names. */
export function projectInAddress(hash = location.hash): string | null {
  if (!hash.startsWith(PROJECT)) return null;
  try {
    return decodeURIComponent(hash.slice(PROJECT.length));
  } catch {
    // an address that was cut short or typed: it names no project
    return null;
  }
}

/** Keeps the open project in the address, so that a reload, a bookmark or a second tab comes back to it. */
export function keepAddress(desk: Desk): void {
  const write = (id: string | null): void => {
    if (id !== null && id !== projectInAddress()) {
      history.replaceState(history.state, "", PROJECT + encodeURIComponent(id));
    }
  };
  write(desk.state.getState().openId);
  desk.state.subscribe(({ openId }) => write(openId));
  addEventListener("hashchange", () => {
    const id = projectInAddress();
    if (id !== null && id !== desk.state.getState().openId) void desk.open(id);
  });
}
