import type { ReactNode } from "react";
import { useApp } from "../store/useApp.ts";

interface BenchProps {
  /** The 3D view with what lies over it. */
  readonly view: ReactNode;
  /** The sheet to its right (below it on narrow windows): ledger, hard-point sheet. */
  readonly sheet: ReactNode;
  /** Below the view on wide windows. */
  readonly drawer?: ReactNode;
  /** Under the thumbs on narrow windows. */
  readonly thumbs?: ReactNode;
}

/** The layout that the places with a view share; the view stays the same one from place to place. */
export function Bench({ view, sheet, drawer, thumbs }: BenchProps) {
  const busy = useApp(({ error, result, stale, partial }) => error === null && (result === null || stale || partial));
  return (
    <main className="bench" aria-busy={busy}>
      <div className="bench-view">{view}</div>
      <aside className="bench-sheet">{sheet}</aside>
      {drawer && <div className="bench-drawer">{drawer}</div>}
      {thumbs && <div className="bench-thumbs">{thumbs}</div>}
    </main>
  );
}
