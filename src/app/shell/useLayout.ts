import { useSyncExternalStore } from "react";

export type Layout = "wide" | "tablet" | "phone";

const WIDE = "(min-width: 1200px)";
const TABLET = "(min-width: 700px)";

/** Which of the three layouts fits the window. */
export function useLayout(): Layout {
  return useSyncExternalStore(subscribe, layoutNow, () => "wide");
}

function layoutNow(): Layout {
  if (matchMedia(WIDE).matches) return "wide";
  return matchMedia(TABLET).matches ? "tablet" : "phone";
}

function subscribe(onChange: () => void): () => void {
  const queries = [matchMedia(WIDE), matchMedia(TABLET)];
  for (const query of queries) query.addEventListener("change", onChange);
  return () => {
    for (const query of queries) query.removeEventListener("change", onChange);
  };
}
