import { GapMark } from "../marks/GapMark.tsx";
import type { RowKind } from "./ledgerRows.ts";

interface TalliesProps {
  readonly counts: Readonly<Record<RowKind, number>>;
  readonly only: RowKind | null;
  readonly stale: boolean;
  onOnly(kind: RowKind | null): void;
}

const WORDS: Readonly<Record<RowKind, string>> = {
  clash: "clash",
  limit: "past a limit",
  tight: "tight",
  clear: "clear",
  accepted: "left out",
};

/** How many of each; pressing one lists only those. Limits and pairs left out are told only where there are any. */
export function Tallies({ counts, only, stale, onOnly }: TalliesProps) {
  const kinds = (["clash", "limit", "tight", "clear", "accepted"] as const).filter(
    (kind) => counts[kind] > 0 || kind === "clash" || kind === "tight" || kind === "clear",
  );
  return (
    <div className={stale ? "tallies stale" : "tallies"}>
      {kinds.map((kind) => (
        <button
          key={kind}
          type="button"
          className="tally"
          data-kind={kind}
          aria-pressed={only === kind}
          disabled={counts[kind] === 0}
          title={only === kind ? "Show all again" : `Show only: ${WORDS[kind]}`}
          onClick={() => onOnly(only === kind ? null : kind)}
        >
          <GapMark kind={kind} />
          <span>
            <b>{counts[kind]}</b> {WORDS[kind]}
          </span>
        </button>
      ))}
    </div>
  );
}
