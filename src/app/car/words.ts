import type { MemberKind } from "../../scene/parts/car.ts";

/** What the list of the car's own settings says. */
export const MEMBER_NAMES: Readonly<Record<MemberKind, string>> = {
  ball: "One-piece arm on a ball",
  link: "Link",
  wishbone: "Wishbone",
  hinge: "Arm on a hinge line",
  strut: "Strut",
};

export const END_LABELS: Readonly<Record<string, string>> = {
  at: "Pivot",
  inboard: "Inboard end",
  outboard: "Outboard end",
  front: "Front pivot",
  rear: "Rear pivot",
  top: "Top",
  bottom: "Bottom",
};

export const WORDS = {
  list: "The car",
  keep: "Keep it",
  members: "What holds the hub",
  membersLead:
    "The hub must be held by five constraints: ball 3, link 1, wishbone 2, hinge 5, strut 2. Swap members here all at once.",
  membersStep: "members",
  addMember: "Add a member",
  takeOut: "Take it out",
  name: "Name",
  kind: "Kind",
  donor: "From the donor: keeps its shape",
  diameter: "Diameter",
  bush: "Inboard bush on a bolt that runs fore and aft",
  newPoint: "New hard point…",
  newPointTitle: "A new hard point",
  newPointLead: "Nothing hangs on it yet. Parts, members and datums can be hung on it afterwards.",
  keepTape: "Keep, then by tape…",
  tolerance: "Good to ±",
  how: "How measured",
  travel: "Travel and sides",
  travelLead: "Counted from ride height.",
  bump: "Bump",
  droop: "Droop",
  step: "Step of the curves",
  sides: "Sides that are checked",
  title: "Name of the scene",
  notes: "Notes",
  gaps: "Wanted gaps",
  gapsLead: "The more special rule holds: two parts by name before a role, a role before everything.",
  defaultGap: "Between all that move",
  joint: "Parts that share a joint may meet within",
  exact: "Round parts are drawn to within",
  rules: "Rules",
  addRule: "Add a rule",
  between: "Between",
  and: "and",
  gap: "Gap",
  accepted: "Left out, with the reason",
  count: "Count it again",
  rock: "How the powertrain rocks",
  rockLead: "Besides at rest, every pair is checked in each of these, and on all the way to it.",
  addPose: "Add a motion",
  about: "Turns about",
  axis: "Its line runs",
  angle: "By",
  shift: ["and moves forward", "and moves left", "and moves up"],
  within: "Only between these travels",
  from: "from",
  to: "to",
  datums: "Datums",
  datumsLead: "Places that you measure from: a rail's edge, a bulkhead's face, the plate below the axle.",
  addDatum: "Add a datum",
  nothing: "none",
} as const;

export function heldWords(total: number): string {
  if (total === 5) return "The hub is held: 5 of 5.";
  return total < 5
    ? `The hub is held by ${total} of 5: ${5 - total} more ${5 - total === 1 ? "is" : "are"} wanted.`
    : `The hub is held by ${total}, where 5 are right: take out ${total - 5}.`;
}
