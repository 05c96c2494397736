import type { MemberDocument, SceneDocument } from "../document.ts";
import { withMember } from "../parts/parts.ts";
import { lengthFault } from "./faults.ts";
import type { KindPlan, MemberPlan } from "./memberPlans.ts";
import { pointQuestion } from "./places.ts";
import { always, type ChoiceQuestion, type LengthQuestion, type Question } from "./question.ts";

/** Every end of every member, its tube, and how the links are bushed. */
export function memberQuestions(plan: KindPlan): readonly Question[] {
  const links = plan.members.filter(({ member }) => member.kind === "link").map(({ member }) => member.id);
  return [
    ...plan.members.flatMap((member): Question[] => [
      ...member.ends.map((end) => pointQuestion({ ...end, section: "members", isNeeded: true })),
      // a strut is drawn by its damper
      ...(member.member.kind === "strut" ? [] : [tubeQuestion(member)]),
    ]),
    ...(links.length > 0 ? [bushQuestion(links)] : []),
  ];
}

/** The member as it stands before its points are known: drawn by nothing. */
export function bareMember({ member, usual_mm }: MemberPlan): MemberDocument {
  const isTube = member.kind === "link" || member.kind === "wishbone";
  const sized = { ...member, ...(isTube ? { diameter_mm: usual_mm } : {}), body: null } as MemberDocument;
  return sized.kind === "link" ? { ...sized, bushAxis: [1, 0, 0] } : sized;
}

/** Draws members whose points are all known (measured or assumed) and leaves the others bare. What was drawn otherwise stays. */
export function withDrawnMembers(
  document: SceneDocument,
  plan: KindPlan,
  isKnown: (id: string) => boolean,
): SceneDocument {
  return plan.members.reduce((now, member) => {
    const found = now.members.find(({ id }) => id === member.member.id);
    if (!found || found.kind !== member.member.kind) return now;
    const wanted = member.ends.every(({ point }) => isKnown(point));
    const isBare = found.body === null;
    if (wanted && isBare) {
      const { body: _, ...plain } = found;
      const body = member.body?.(member.usual_mm);
      return withMember(now, found.id, (body ? { ...plain, body } : plain) as MemberDocument);
    }
    if (!wanted && !isBare && isPlain(found, member)) return withMember(now, found.id, { ...found, body: null });
    return now;
  }, document);
}

function isPlain(member: MemberDocument, plan: MemberPlan): boolean {
  return plan.body === undefined ? member.body === undefined : tubeOf(member, plan) !== null;
}

/** Diameter of the tubes that this set-up draws the member by; null: it is bare, or drawn otherwise. */
function tubeOf(member: MemberDocument, plan: MemberPlan): number | null {
  const { body } = member;
  if (!body || !plan.body) return null;
  const first = body.kind === "group" ? body.parts[0] : body;
  if (first?.kind !== "capsule") return null;
  return JSON.stringify(plan.body(first.diameter_mm)) === JSON.stringify(body) ? first.diameter_mm : null;
}

function tubeQuestion(plan: MemberPlan): LengthQuestion {
  const { id } = plan.member;
  const known = (document: SceneDocument) =>
    document.members.find((member) => member.id === id && member.kind === plan.member.kind);
  return {
    kind: "length",
    id: `${id}.tube`,
    section: "members",
    ...(plan.member.kind === "wishbone" ? { of: "wishbone" } : {}),
    picture: { of: "tube" },
    isNeeded: false,
    // what was drawn by hand since has its own shape
    isAsked(document) {
      const member = known(document);
      return member !== undefined && (plan.body === undefined || member.body === null || tubeOf(member, plan) !== null);
    },
    read(document) {
      const member = known(document);
      if (!member) return null;
      return "diameter_mm" in member ? (member.diameter_mm ?? null) : tubeOf(member, plan);
    },
    usual: () => plan.usual_mm,
    put(document, diameter_mm) {
      const member = known(document);
      if (!member) return document;
      if (plan.body === undefined) return withMember(document, id, { ...member, diameter_mm } as MemberDocument);
      if (!member.body) return document;
      return withMember(document, id, { ...member, body: plan.body(diameter_mm) });
    },
    fault: lengthFault(6, 150, "thickness"),
  };
}

const BOLTED = "bolted";
const BALLS = "balls";

/** A bush keeps a link from spinning about its own line; between two balls nothing does. */
function bushQuestion(links: readonly string[]): ChoiceQuestion {
  const linksOf = (document: SceneDocument) =>
    document.members.filter((member) => member.kind === "link" && links.includes(member.id));
  return {
    kind: "choice",
    id: "links.bush",
    section: "members",
    picture: { of: "tube" },
    isNeeded: false,
    isAsked: always,
    options: () => [BOLTED, BALLS],
    read: (document) => (linksOf(document).every((member) => "bushAxis" in member && member.bushAxis) ? BOLTED : BALLS),
    usual: () => BOLTED,
    put: (document, answer) =>
      linksOf(document).reduce((now, member) => {
        const { bushAxis: _, ...rest } = member as Extract<MemberDocument, { kind: "link" }>;
        return withMember(now, member.id, answer === BOLTED ? { ...rest, bushAxis: [1, 0, 0] } : rest);
      }, document),
    fault: () => null,
  };
}
