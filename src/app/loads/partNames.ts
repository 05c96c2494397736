import { USUAL_CASE_IDS } from "../../loads/cases.ts";
import type { Missing } from "../../loads/screen/finding.ts";
import { partOfJoint } from "../../scene/jointNames.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";

/** A scene or its document. */
interface Named {
  readonly members: readonly { readonly id: string; readonly kind: string }[];
}

const ENDS = [
  "at",
  "inboard",
  "outboard",
  "front",
  "rear",
  "top",
  "bottom",
  "inner",
  "outer",
  "pivot",
  "arm",
  "pickup",
] as const;
const SECTIONS = ["inboard", "outboard", "front", "rear"] as const;
const OWN = ["chassis", "powertrain", "carrier", "driveshaft", "damper"] as const;

/** What the table calls a joint ("upper.inboard"), a stretch ("lower front"), a part, or "ground". */
export function partText(part: string, scene: Named | null): string {
  if (part === "ground") return t("loads.table.ground");
  if (part === "damper") return t("loads.table.damper");
  if (part === "driveshaft") return t("loads.table.driveshaft");
  const end = ENDS.find((each) => part.endsWith(`.${each}`));
  if (end) return t(`loads.joints.${end}`, { part: ownerText(partOfJoint(part), scene) });
  const member = memberOf(part, scene);
  if (!member || member === part) return nameOf(part, scene);
  const rest = part.slice(member.length + 1);
  const name = nameOf(member, scene);
  const section = SECTIONS.find((each) => each === rest);
  return section
    ? t(`loads.sections.${section}`, { part: name })
    : t("loads.sections.cut", { part: name, number: rest.replace(/^cut /, "") });
}

/** A joint ("upper.inboard"), or a link that twists between its two rod ends. */
export function jointText(joint: string, scene: Named | null): string {
  return joint.includes(".") ? partText(joint, scene) : nameOf(joint, scene);
}

/** The member that a stretch such as "lower front" belongs to; the longest id that fits. */
export function memberOf(part: string, scene: Named | null): string | null {
  const found = (scene?.members ?? []).map(({ id }) => id).filter((id) => part === id || part.startsWith(`${id} `));
  return found.sort((a, b) => b.length - a.length)[0] ?? null;
}

function ownerText(id: string, scene: Named | null): string {
  if (id === "damper" || id === "driveshaft") return capital(t(`loads.bodies.${id}`));
  return nameOf(id, scene);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** One of the two that meet in a joint, inside a sentence. */
export function bodyText(id: string, scene: Named | null): string {
  const own = OWN.find((each) => each === id);
  return own ? t(`loads.bodies.${own}`) : nameWithin(id, scene);
}

/** A case of the scene by its own name, a usual one in the language that is shown. */
export function caseText(id: string, isUsual: boolean): string {
  const usual = isUsual ? USUAL_CASE_IDS.find((each) => each === id) : undefined;
  return usual ? t(`loads.usual.${usual}`) : id;
}

/** What would have to be known, in words. */
export function missingText(missing: Missing): string {
  switch (missing.what) {
    case "tube":
      return t(`loads.missing.tube.${missing.kind}`);
    case "leg":
      return t(`loads.missing.leg.${missing.leg}`);
    case "bolt class":
      return t("loads.missing.boltClass", { class: missing.class });
    case "weld factor":
      return t("loads.missing.weldFactor", { material: missing.material });
    case "material":
      return t("loads.missing.material", { material: missing.material });
    default:
      return t(`loads.missing.${missing.what}`);
  }
}
