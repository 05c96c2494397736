import type { PartGroup } from "../../check/model.ts";

/** How the parts of a group look in the view: lightness, edge weight and outline tell them apart, not hue. */
export function Swatch({ group }: { group: PartGroup }) {
  return (
    <svg className="swatch" width="24" height="24" viewBox="0 0 24 24" aria-hidden="true">
      {SHAPES[group]}
    </svg>
  );
}

const SHAPES: Readonly<Record<PartGroup, React.ReactNode>> = {
  chassis: (
    <rect x="2" y="2" width="20" height="20" fill="var(--chassis)" stroke="var(--swatch-edge)" strokeWidth="3" />
  ),
  powertrain: (
    <>
      <rect x="1" y="1" width="22" height="22" rx="6" fill="var(--powertrain)" />
      <rect
        x="1"
        y="1"
        width="22"
        height="22"
        rx="6"
        fill="url(#pattern-stipple)"
        stroke="var(--swatch-edge)"
        strokeWidth="1.6"
      />
    </>
  ),
  hub: (
    <>
      <circle cx="12" cy="12" r="10.6" fill="var(--hub)" stroke="var(--swatch-edge)" strokeWidth="1.6" />
      <circle cx="12" cy="12" r="3.4" fill="var(--swatch-edge)" />
    </>
  ),
  arms: (
    <>
      <path d="M5 18 19 6" stroke="var(--swatch-edge)" strokeWidth="9.5" strokeLinecap="round" />
      <path d="M5 18 19 6" stroke="var(--arms)" strokeWidth="6" strokeLinecap="round" />
    </>
  ),
};
