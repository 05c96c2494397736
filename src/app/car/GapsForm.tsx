import { useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import { withRecords } from "../../scene/parts/car.ts";
import { partsOf } from "../../scene/parts/parts.ts";
import { Picker } from "../parts/Picker.tsx";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { CarForm } from "./CarForm.tsx";
import { LengthLine } from "./Fields.tsx";

type Clearances = SceneDocument["clearances"];
type Rule = NonNullable<Clearances["rules"]>[number];

const JOINT_USUAL_mm = 40;
const EXACT_USUAL_mm = 0.1;

/** Wanted gaps: between all, by rule, and what was left out with its reason. */
export function GapsForm({ document }: { document: SceneDocument }) {
  const { clearances, tessellation_mm } = document;
  const [default_mm, setDefault] = useState(clearances.default_mm);
  const [joint_mm, setJoint] = useState(clearances.jointRadius_mm ?? JOINT_USUAL_mm);
  const [exact_mm, setExact] = useState(tessellation_mm ?? EXACT_USUAL_mm);
  const [rules, setRules] = useState<readonly (Rule & { readonly key: number })[]>(() =>
    (clearances.rules ?? []).map((rule, key) => ({ ...rule, key })),
  );
  const [accept, setAccept] = useState(clearances.accept ?? []);
  const terms = termsOf(document, rules);
  const change = (key: number, part: Partial<Rule>) =>
    setRules(rules.map((rule) => (rule.key === key ? { ...rule, ...part } : rule)));
  const edit = (now: SceneDocument): SceneDocument => {
    const next: Clearances = {
      default_mm,
      ...(joint_mm === JOINT_USUAL_mm && clearances.jointRadius_mm === undefined ? {} : { jointRadius_mm: joint_mm }),
      ...(rules.length === 0 ? {} : { rules: rules.map(({ a, b, mm }) => ({ a, b, mm })) }),
      ...(accept.length === 0 ? {} : { accept }),
    };
    return withRecords(now, {
      clearances: next,
      tessellation_mm: exact_mm === EXACT_USUAL_mm && tessellation_mm === undefined ? undefined : exact_mm,
    });
  };
  return (
    <CarForm title={t("car.gaps.title")} lead={t("car.gaps.lead")} step={t("car.gaps.step")} edit={edit}>
      <LengthLine label={t("car.gaps.usual")} value_mm={default_mm} onChange={setDefault} />
      <LengthLine label={t("car.gaps.joint")} value_mm={joint_mm} onChange={setJoint} />
      <LengthLine label={t("car.gaps.exact")} value_mm={exact_mm} onChange={setExact} />
      <p className="car-label">{t("car.gaps.rules")}</p>
      {rules.map(({ key, a, b, mm }, i) => (
        <fieldset key={key} className="car-row" aria-label={t("car.gaps.rule", { number: i + 1 })}>
          <Picker label={t("car.gaps.between")} items={terms} value={a} onPick={(term) => change(key, { a: term })} />
          <Picker label={t("car.gaps.and")} items={terms} value={b} onPick={(term) => change(key, { b: term })} />
          <LengthLine label={t("car.gaps.gap")} value_mm={mm} onChange={(value) => change(key, { mm: value })} />
          <button
            type="button"
            className="button plain"
            onClick={() => setRules(rules.filter((rule) => rule.key !== key))}
          >
            {t("car.takeOut")}
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        className="button"
        onClick={() =>
          setRules([...rules, { a: "tyre", b: "*", mm: 15, key: 1 + Math.max(-1, ...rules.map(({ key }) => key)) }])
        }
      >
        {t("car.gaps.add")}
      </button>
      {accept.length > 0 && <p className="car-label">{t("car.gaps.accepted")}</p>}
      {accept.map((pair) => (
        <div key={`${pair.a}/${pair.b}`} className="car-line">
          <span>
            {t("car.gaps.acceptedPair", { a: nameOf(pair.a, document), b: nameOf(pair.b, document), why: pair.why })}
          </span>
          <button type="button" className="button" onClick={() => setAccept(accept.filter((one) => one !== pair))}>
            {t("car.gaps.count")}
          </button>
        </div>
      ))}
    </CarForm>
  );
}

const OWN_BODIES = ["tyre", "rim", "damper-upper", "damper-lower", "spring", "bar", "bar-link", "driveshaft"];
const OWN_ROLES = ["exhaust", "boot", "frame", "bracket", "casing"];

/** Everything, every role and every body that a rule may name. */
function termsOf(document: SceneDocument, rules: readonly Rule[]) {
  const parts = partsOf(document);
  const roles = new Set([...OWN_ROLES, ...document.bodies.flatMap(({ role }) => (role ? [role] : []))]);
  const ids = [
    ...OWN_BODIES.filter((id) => id === "tyre" || id === "rim" || isThere(document, id)),
    ...parts.filter(({ kind }) => kind === "body" || kind === "member").map(({ id }) => id),
  ];
  const known = ["*", ...[...roles].map((role) => `role:${role}`), ...ids];
  const named = rules.flatMap(({ a, b }) => [a, b]).filter((term) => !known.includes(term));
  return [...known, ...named].map((value) => ({ value, label: termName(value, document) }));
}

function isThere(document: SceneDocument, id: string): boolean {
  if (id.startsWith("bar")) return document.antiRollBar !== undefined;
  if (id === "driveshaft") return document.driveshaft !== undefined;
  return document.damper !== undefined && (id !== "spring" || document.damper.spring_mm !== undefined);
}

function termName(term: string, document: SceneDocument): string {
  if (term === "*") return t("car.gaps.everything");
  return term.startsWith("role:") ? t("car.gaps.role", { role: term.slice(5) }) : nameOf(term, document);
}
