import { type ReactNode, useEffect, useMemo, useRef, useState } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Answer } from "../../scene/setup/question.ts";
import { standingOf } from "../../scene/setup/setup.ts";
import { openCar } from "../car/carStore.ts";
import { troubleText } from "../parts/partDraft.ts";
import { DatumChooser } from "../points/DatumChooser.tsx";
import { placeByTape } from "../points/tape/tapeStore.ts";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { capital } from "../words/names.ts";
import { keepAnswer } from "./answering.ts";
import { type AskedQuestion, type DraftTexts, type FieldKey, fieldsOf, readDraft, textsOf } from "./draft.ts";
import { MeasureField } from "./MeasureField.tsx";
import { answerName } from "./questionText.ts";
import { goTo, useSetup } from "./setupStore.ts";

interface QuestionFormProps {
  readonly question: AskedQuestion;
  readonly document: SceneDocument;
  readonly setting: Parameters<typeof readDraft>[2];
  readonly isReadOnly: boolean;
  readonly nextId: string | null;
  /** Above the fields; it is told the place as typed so far. */
  picture(at: Vec3 | null): ReactNode;
  /** Beside the button that keeps. */
  readonly foot: ReactNode;
  /** Below the fields. */
  readonly below: ReactNode;
}

/** The fields of one question. Enter goes from field to field and then keeps. */
export function QuestionForm({
  question,
  document,
  setting,
  isReadOnly,
  nextId,
  picture,
  foot,
  below,
}: QuestionFormProps) {
  const sides = useApp((state) => state.scene?.sides);
  const standing = standingOf(document, question);
  const now = question.read(document);
  const usual = question.usual(document);
  const before: Answer | null = standing === null ? null : now;
  const shown = useMemo<DraftTexts>(() => {
    const value = standing === null ? null : question.read(setting.document);
    return value === null ? {} : textsOf(question, value, setting);
  }, [question, standing, setting]);
  const [typed, setTyped] = useState<{ readonly shown: DraftTexts; readonly texts: DraftTexts } | null>(null);
  // another unit, datum or step of the scene makes what was typed moot
  const texts = typed?.shown === shown ? typed.texts : shown;
  const [judged, setJudged] = useState(false);
  const [left, setLeft] = useState<ReadonlySet<FieldKey>>(new Set());
  const [refused, setRefused] = useState<string | null>(null);
  const fields = fieldsOf(question);
  const form = useRef<HTMLFormElement>(null);
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (!matchMedia("(pointer: coarse)").matches) first.current?.focus({ preventScroll: true });
  }, []);
  const reading = readDraft(question, texts, setting, before);
  const isUnchanged = standing === "measured" && fields.every((key) => texts[key] === shown[key]);
  const type = (key: FieldKey, text: string) => {
    setTyped({ shown, texts: { ...texts, [key]: text } });
    setJudged(false);
    setRefused(null);
  };
  const keep = () => {
    if (isUnchanged) return goTo(nextId);
    setJudged(true);
    if (reading.value === null) return focusWrong();
    const error = keepAnswer(question, reading.value);
    setRefused(error && troubleText(error));
  };
  const focusWrong = () => {
    const inputs = [...(form.current?.querySelectorAll<HTMLInputElement>(".measure-input") ?? [])];
    const wrong = fields.findIndex((key) => reading.faults.has(key) || !texts[key]);
    inputs[Math.max(0, wrong)]?.focus();
  };
  /** Enter in a field that is not the last one goes to the next that is empty. */
  const submit = () => {
    const inputs = [...(form.current?.querySelectorAll<HTMLInputElement>(".measure-input") ?? [])];
    const empty = inputs.find((input) => input.value.trim() === "");
    if (empty && inputs.some((input) => input.value.trim() !== "") && reading.faults.size === 0) empty.focus();
    else keep();
  };
  const usualTexts = textsOf(question, usual, setting);
  const step = stepOf(question, setting.unit);
  const isEmpty = fields.every((key) => !texts[key]);
  const general =
    refused ??
    (judged && reading.fault !== null
      ? reading.fault
      : judged && reading.value === null && reading.faults.size === 0
        ? isEmpty
          ? t("setup.unanswered")
          : t("setup.incomplete")
        : null);
  const place = question.kind === "place" ? ((reading.value ?? now ?? usual) as Vec3) : null;
  return (
    <form
      ref={form}
      className="setup-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!isReadOnly) submit();
      }}
    >
      <div className="setup-scroll">
        <div>{picture(place)}</div>
        <div className="setup-fields" data-place={question.kind === "place"}>
          {question.kind === "place" && <DatumChooser />}
          {fields.map((key, i) => (
            <MeasureField
              key={key}
              label={key === "value" ? capital(answerName(question)) : t(`setup.fields.${key}`)}
              from={unitOf(question, key, setting)}
              text={texts[key] ?? ""}
              usual={usualTexts[key] ?? ""}
              fault={judged || left.has(key) ? (reading.faults.get(key) ?? null) : null}
              disabled={isReadOnly}
              isText={question.kind === "text"}
              {...(i === 0 ? { field: first } : {})}
              step={
                step === null
                  ? null
                  : {
                      words: stepText(question, step, setting.unit),
                      go: (by) => type(key, stepped(texts[key] || usualTexts[key] || "0", by * step)),
                    }
              }
              onText={(text) => type(key, text)}
              onFocus={() => useSetup.setState({ direction: key === "value" ? null : key })}
              onLeave={() => setLeft(new Set([...left, key]))}
            />
          ))}
          {question.kind === "place" && question.point !== null && !isReadOnly && (
            <button
              type="button"
              className="button setup-tape"
              onClick={() => placeByTape(question.point!, sides?.includes("left") === false ? "right" : "left")}
            >
              {t("setup.tape")}
            </button>
          )}
          {question.kind === "place" && !isReadOnly && (
            <button type="button" className="button plain setup-datum" onClick={() => openCar("datums")}>
              {t("setup.newDatum")}
            </button>
          )}
          {below}
        </div>
      </div>
      {general && (
        <p className="point-error setup-fault" role="alert">
          {general}
        </p>
      )}
      <div className="setup-foot">
        {foot}
        <button type="submit" className="button go" disabled={isReadOnly}>
          {isUnchanged ? t("setup.next") : t("setup.keep")}
        </button>
      </div>
    </form>
  );
}

function stepOf(question: AskedQuestion, unit: "mm" | "in"): number | null {
  if (question.kind === "text") return null;
  if (question.kind === "number") return question.step;
  return unit === "mm" ? 1 : 1 / 16;
}

/** The number in the field and a step, as the field would show it. */
function stepped(text: string, by: number): string {
  const number = Number(text.replace(",", ".").replace(/^[−–]/, "-"));
  const next = (Number.isFinite(number) ? number : 0) + by;
  return String(Math.round(next * 1e4) / 1e4).replace("-", "−");
}

function unitOf(question: AskedQuestion, key: FieldKey, { unit, datum }: Parameters<typeof readDraft>[2]): string {
  if (question.kind === "text") return "";
  if (question.kind === "number") return t(`setup.units.${question.unit}`);
  if (key === "value" || datum) return unit;
  return t(`setup.fromCar.${key}`, { unit });
}

function stepText(question: AskedQuestion, step: number, unit: "mm" | "in"): string {
  if (question.kind === "number") return t("setup.step", { step, unit: t(`setup.units.${question.unit}`) });
  return unit === "in" ? t("setup.sixteenth") : t("setup.step", { step, unit });
}
