import type { Verdict } from "../../check/result.ts";

export type MarkKind = Verdict | "limit";

/**
 * Two rounded noses seen end on: overlapping, kissing, apart; a limit is a hollow diamond. Silent to the ear, where the
 * word beside it speaks.
 */
export function GapMark({ kind, size = 24 }: { kind: MarkKind; size?: number }) {
  return (
    <svg className="gap-mark" width={size} height={size} viewBox="0 0 24 24" aria-hidden="true" data-kind={kind}>
      {SHAPES[kind]}
    </svg>
  );
}

const DIAMOND = "M12 4 20 12 12 20 4 12z";

const SHAPES: Readonly<Record<MarkKind, React.ReactNode>> = {
  clash: (
    <>
      <path d="M1 4.5h1a13 7.5 0 0 1 0 15H1zM23 4.5h-1a13 7.5 0 0 0 0 15h1z" fill="var(--clash)" />
      <path
        d="M12 7.2a13 7.5 0 0 1 0 9.6a13 7.5 0 0 1 0-9.6z"
        fill="var(--ink)"
        stroke="var(--sheet)"
        strokeWidth="1.2"
      />
    </>
  ),
  tight: (
    <>
      <path d="M1 4.5h2a8.7 7.5 0 0 1 0 15H1z" fill="var(--tight)" />
      <path d="M22 5.5h-.6a8 6.5 0 0 0 0 13h.6z" fill="none" stroke="var(--tight)" strokeWidth="2" />
    </>
  ),
  clear: (
    <path
      d="M1.8 5.5h.4a6.5 6.5 0 0 1 0 13h-.4M22.2 5.5h-.4a6.5 6.5 0 0 0 0 13h.4"
      fill="none"
      stroke="var(--clear)"
      strokeWidth="2.2"
      strokeLinecap="round"
    />
  ),
  accepted: (
    <path
      d="M1.8 5.5h.4a6.5 6.5 0 0 1 0 13h-.4M22.2 5.5h-.4a6.5 6.5 0 0 0 0 13h.4M10 12h4"
      fill="none"
      stroke="var(--ink3)"
      strokeWidth="2"
      strokeLinecap="round"
    />
  ),
  limit: (
    <>
      <path d={DIAMOND} fill="none" stroke="var(--limit-edge)" strokeWidth="5" strokeLinejoin="round" />
      <path d={DIAMOND} fill="none" stroke="var(--limit)" strokeWidth="2.4" strokeLinejoin="round" />
    </>
  ),
};
