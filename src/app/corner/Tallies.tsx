import { GapMark } from "../marks/GapMark.tsx";
import { t } from "../text/text.ts";
import type { RowKind } from "./ledgerRows.ts";

interface TalliesProps {
  readonly counts: Readonly<Record<RowKind, number>>;
  readonly only: RowKind | null;
  readonly stale: boolean;
  /** Pairs are still to be checked: a count of none says nothing yet. */
  readonly partial: boolean;
  onOnly(kind: RowKind | null): void;
}

/** What is counted of a kind. */
const COUNTED = { clash: "pairs", limit: "limits", tight: "pairs", clear: "clear", accepted: "pairs" } as const;

/** How many of each; pressing one lists only those. Limits and pairs left out are told only where there are any. */
export function Tallies({ counts, only, stale, partial, onOnly }: TalliesProps) {
  const kinds = (["clash", "limit", "tight", "clear", "accepted"] as const).filter(
    (kind) => counts[kind] > 0 || kind === "clash" || kind === "tight" || kind === "clear",
  );
  return (
    <fieldset
      className={`tallies${stale ? " stale" : ""}${partial ? " partial" : ""}`}
      aria-label={t("corner.tallies.label")}
    >
      {kinds.map((kind) => (
        <button
          key={kind}
          type="button"
          className="tally"
          data-kind={kind}
          aria-pressed={only === kind}
          disabled={counts[kind] === 0}
          title={t(`corner.tallies.${only === kind ? "all" : "only"}`, {
            kind: t(`corner.tally.${kind}`, { count: counts[kind] }),
            counted: t(`corner.tallies.${COUNTED[kind]}`),
          })}
          onClick={() => onOnly(only === kind ? null : kind)}
        >
          <GapMark kind={kind} />
          <span>
            <b>{partial && counts[kind] === 0 ? "–" : counts[kind]}</b>{" "}
            {t(`corner.tally.${kind}`, { count: counts[kind] })}
          </span>
        </button>
      ))}
    </fieldset>
  );
}
