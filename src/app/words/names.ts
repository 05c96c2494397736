import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";

/** Bodies that the house itself brings, where the id alone would read badly. */
const OWN = ["bar", "bar-link", "damper-upper", "damper-lower"] as const;

/** A scene or its document. */
interface Named {
  readonly members: readonly { readonly id: string; readonly kind: string }[];
}

/** What people call a body: its id in words, with the kind of part unless the id tells it ("upper" of a link: "Upper link"). */
export function nameOf(id: string, scene: Named | null): string {
  const own = OWN.find((each) => each === id);
  if (own) return t(`words.bodies.${own}`);
  const name = id.replace(/[-_.#]+/g, " ").trim();
  const kind = scene?.members.find((member) => member.id === id)?.kind;
  if (kind !== "link" && kind !== "wishbone" && kind !== "strut") return capital(name);
  const isTold = [kind, t(`words.memberKinds.${kind}`)].some((word) => holds(name, word));
  return capital(isTold ? name : t(`words.members.${kind}`, { name }));
}

function holds(name: string, word: string): boolean {
  return name.toLowerCase().includes(word.toLowerCase());
}

/** The same inside a sentence. */
export function nameWithin(id: string, scene: Named | null): string {
  return withinText(nameOf(id, scene));
}

/** Poses that the app itself puts into a scene; any other has the name that it was given. */
const OWN_POSES = ["rest", "pulling", "overrun"] as const;

/** The engine's pose on a button: "at rest", "pulling", "overrun". */
export function poseName(pose: string): string {
  const own = OWN_POSES.find((each) => each === pose);
  return own ? t(`words.poses.${own}`) : pose.replace(/[-_]+/g, " ");
}

/** The engine's pose in a sentence: "engine at rest", "engine pulling", "engine on overrun", "engine 40 % of the way to overrun". */
export function engineText(pose: string, share = 1): string {
  const name = poseName(pose);
  if (share < 1) return t("words.engine.onTheWay", { percent: Math.round(100 * share), pose: name });
  const own = OWN_POSES.find((each) => each === pose);
  return t(`words.engine.${own ?? (name.endsWith("ing") ? "doing" : "other")}`, { pose: name });
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
