import { GapMark } from "../marks/GapMark.tsx";
import type { RowKind } from "./ledgerRows.ts";

interface TalliesProps {
  readonly counts: Readonly<Record<RowKind, number>>;
  readonly only: RowKind | null;
  readonly stale: boolean;
  /** Pairs are still to be checked: a count of none says nothing yet. */
  readonly partial: boolean;
  onOnly(kind: RowKind | null): void;
}

const WORDS: Readonly<Record<RowKind, string>> = {
  clash: "clash",
  limit: "past a limit",
  tight: "tight",
  clear: "clear",
  accepted: "left out",
};

const SIDES = "pairs, both sides as one";
const COUNTED: Readonly<Record<RowKind, string>> = {
  clash: SIDES,
  limit: "limits, both sides as one",
  tight: SIDES,
  clear: "pairs and limits that hold, both sides as one",
  accepted: SIDES,
};

/** How many of each; pressing one lists only those. Limits and pairs left out are told only where there are any. */
export function Tallies({ counts, only, stale, partial, onOnly }: TalliesProps) {
  const kinds = (["clash", "limit", "tight", "clear", "accepted"] as const).filter(
    (kind) => counts[kind] > 0 || kind === "clash" || kind === "tight" || kind === "clear",
  );
  return (
    <fieldset
      className={`tallies${stale ? " stale" : ""}${partial ? " partial" : ""}`}
      aria-label="Counts of pairs, both sides as one"
    >
      {kinds.map((kind) => (
        <button
          key={kind}
          type="button"
          className="tally"
          data-kind={kind}
          aria-pressed={only === kind}
          disabled={counts[kind] === 0}
          title={`${only === kind ? "Show all again" : `Show only: ${WORDS[kind]}`} (${COUNTED[kind]})`}
          onClick={() => onOnly(only === kind ? null : kind)}
        >
          <GapMark kind={kind} />
          <span>
            <b>{partial && counts[kind] === 0 ? "–" : counts[kind]}</b> {WORDS[kind]}
          </span>
        </button>
      ))}
    </fieldset>
  );
}
