/** Bodies that the house itself brings, where the id alone would read badly. */
const OWN_NAMES: Readonly<Record<string, string>> = {
  bar: "Anti-roll bar",
  "bar-link": "Anti-roll bar link",
  "damper-upper": "Damper rod",
  "damper-lower": "Damper body",
};

/** A scene or its document. */
interface Named {
  readonly members: readonly { readonly id: string; readonly kind: string }[];
}

/** What people call a body: its id in words, with the kind of part unless the id tells it ("upper" of a link: "Upper link"). */
export function nameOf(id: string, scene: Named | null): string {
  const own = OWN_NAMES[id];
  if (own) return own;
  const words = id.replace(/[-_.#]+/g, " ").trim();
  const kind = scene?.members.find((member) => member.id === id)?.kind;
  const suits = kind !== undefined && kind !== "ball" && kind !== "hinge";
  return capital(suits && !words.toLowerCase().includes(kind) ? `${words} ${kind}` : words);
}

/** The same inside a sentence. */
export function nameWithin(id: string, scene: Named | null): string {
  const name = nameOf(id, scene);
  return name.charAt(0).toLowerCase() + name.slice(1);
}

/** The engine's pose on a button: "at rest", "pulling", "overrun". */
export function poseName(pose: string): string {
  return pose === "rest" ? "at rest" : pose.replace(/[-_]+/g, " ");
}

/** The engine's pose in a sentence: "engine at rest", "engine pulling", "engine on overrun", "engine 40 % of the way to overrun". */
export function engineText(pose: string, share = 1): string {
  const name = poseName(pose);
  if (share < 1) return `engine ${Math.round(100 * share)} % of the way to ${name}`;
  return pose === "rest" || name.endsWith("ing") ? `engine ${name}` : `engine on ${name}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
