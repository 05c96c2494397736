import type { PartGroup } from "../../check/model.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { KIND_WORDS, type Part, partsOf } from "../../scene/parts/parts.ts";
import { listText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { recipeText } from "./recipeText.ts";

/** What a part rides on, in words: "chassis", "hub side", "upper link". */
export function mountName(on: string, document: SceneDocument): string {
  if (on === "carrier" || on === "chassis" || on === "powertrain") return t(`parts.mounts.${on}`);
  return nameWithin(on, document);
}

/** Everything that a body can ride on in this scene. */
export function mountItems(document: SceneDocument): { readonly value: string; readonly label: string }[] {
  const ids = [
    "chassis",
    "powertrain",
    "carrier",
    ...document.members.map(({ id }) => id),
    ...(document.damper ? ["damper-upper", "damper-lower"] : []),
    ...(document.driveshaft ? ["driveshaft"] : []),
  ];
  return ids.map((value) => ({ value, label: mountName(value, document) }));
}

export function partName(part: Part, document: SceneDocument): string {
  return part.kind === "body" || part.kind === "member" ? nameOf(part.id, document) : t(`parts.units.${part.kind}`);
}

/** Which of the view's groups the part stands in. */
export function groupOf(part: Part, document: SceneDocument): PartGroup {
  if (part.kind === "wheel") return "hub";
  if (part.kind === "damper" || part.kind === "antiRollBar" || part.kind === "driveshaft") return "arms";
  const mount = part.kind === "member" ? part.id : part.on;
  if (mount === "chassis" || mount === "powertrain") return mount;
  const kind = document.members.find(({ id }) => id === mount)?.kind;
  if (mount === "carrier" || kind === "ball" || kind === "hinge" || kind === "strut") return "hub";
  return "arms";
}

/** The id by which the view holds the part; several bodies of a unit are told by one of them. */
export function heldIdOf(part: Part): string {
  const bodies: Partial<Record<Part["kind"], string>> = { wheel: "tyre", damper: "damper-lower" };
  return bodies[part.kind] ?? part.id;
}

/** A line below the name: how it was made, what it rides on, on which sides. */
export function aboutPart(part: Part, document: SceneDocument): string {
  if (part.kind !== "body" && part.kind !== "member") return "";
  const words: string[] = [];
  if (part.made) words.push(recipeText(part.made.as, "name"));
  const member = document.members.find(({ id }) => id === part.id);
  if (member?.stock === "donor") words.push(t("parts.about.donor"));
  const body = document.bodies.find(({ id }) => id === part.id);
  if (body && groupOf(part, document) === "arms")
    words.push(t("parts.about.on", { mount: mountName(body.on, document) }));
  if (body?.mirror) words.push(t("parts.about.bothSides"));
  return listText(words, "unit");
}

export interface ListedPart {
  readonly part: Part;
  readonly name: string;
  readonly about: string;
  readonly group: PartGroup;
}

/** All parts whose name, recipe, role or mount has every word of the search. */
export function listedParts(document: SceneDocument, search: string): ListedPart[] {
  const words = search.toLowerCase().split(/\s+/).filter(Boolean);
  return partsOf(document)
    .map((part) => ({
      part,
      name: partName(part, document),
      about: aboutPart(part, document),
      group: groupOf(part, document),
    }))
    .filter(({ part, name, about }) => {
      const text = `${name} ${about} ${part.role ?? ""} ${part.on} ${KIND_WORDS[part.kind]}`.toLowerCase();
      return words.every((word) => text.includes(word));
    });
}

export function mountSentence(part: Part, document: SceneDocument): string {
  if (part.kind === "member") return t("parts.sentences.holdsHub");
  if (part.kind !== "body") return t("parts.sentences.hasOne");
  return t("parts.sentences.ridesOn", { mount: mountName(part.on, document) });
}
