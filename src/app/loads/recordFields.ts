import type { SceneDocument } from "../../scene/document.ts";
import { jointNames, partOfJoint } from "../../scene/jointNames.ts";
import { BOLT_CLASSES, THREADS } from "../../scene/loadsDocument.ts";
import type { en } from "../text/en/index.ts";
import { t } from "../text/text.ts";
import type { ListName } from "./formsStore.ts";

type Label = keyof (typeof en)["loads"]["fields"];
type OptionWord = keyof (typeof en)["loads"]["options"];
type UnitWord = keyof (typeof en)["loads"]["units"];

/** A value that a choice can hold; undefined leaves the field out. */
export interface Option {
  readonly value: string | number | undefined;
  /** A word of the catalogue; left out: the value as it is. */
  readonly word?: OptionWord;
}

/** What a field of a record asks for. `key` may lead into a record within ("timesStatic.up"). */
export type Field = { readonly key: string; readonly label: Label } & (
  | { readonly kind: "text"; readonly isOptional?: boolean }
  | { readonly kind: "joint" | "member" | "material" }
  | { readonly kind: "size"; readonly usual?: number; readonly isOptional?: boolean }
  | { readonly kind: "force" | "stress"; readonly step: number; readonly usual: number; readonly isOptional?: boolean }
  | {
      readonly kind: "number";
      readonly step: number;
      readonly unit: UnitWord | "factor";
      readonly isWhole?: boolean;
      readonly usual: number;
      /** What stands for left out, where it is not a box to tick. */
      readonly nothing?: number;
      readonly isOptional?: boolean;
    }
  | { readonly kind: "forceOrNothing" }
  | { readonly kind: "choice"; readonly options: readonly Option[] }
  | { readonly kind: "direction" | "cut" }
);

export type LoadRecord = Readonly<Record<string, unknown>>;

const TARGET: Field = {
  key: "target",
  label: "target",
  kind: "number",
  step: 0.5,
  unit: "factor",
  usual: 2,
  isOptional: true,
};
const JOINT: Field = { key: "joint", label: "joint", kind: "joint" };
const MATERIAL: Field = { key: "material", label: "material", kind: "material" };
const SOURCE: Field = { key: "source", label: "source", kind: "text", isOptional: true };

const times = (way: "forward" | "out" | "up", label: Label): Field => ({
  key: `timesStatic.${way}`,
  label,
  kind: "number",
  step: 0.1,
  unit: "times",
  usual: 0,
  nothing: 0,
});

/** The fields of a record; of those that ask for what its kind of part or weld does not have, none. */
export function fieldsOf(list: ListName, record: LoadRecord, document: SceneDocument): readonly Field[] {
  switch (list) {
    case "cases":
      return [
        { key: "id", label: "name", kind: "text" },
        times("forward", "timesForward"),
        times("out", "timesOut"),
        times("up", "timesUp"),
        { key: "force_N.forward", label: "forceForward", kind: "forceOrNothing" },
        { key: "force_N.out", label: "forceOut", kind: "forceOrNothing" },
        { key: "force_N.up", label: "forceUp", kind: "forceOrNothing" },
        {
          key: "torque",
          label: "torque",
          kind: "choice",
          options: [
            { value: undefined, word: "asUsual" },
            { value: "carrier", word: "carrier" },
            ...(document.driveshaft ? [{ value: "shaft", word: "shaft" } as const] : []),
            { value: "free", word: "spins" },
          ],
        },
        ...(document.antiRollBar
          ? [{ key: "roll_deg", label: "roll", kind: "number", step: 0.5, unit: "roll", usual: 0, nothing: 0 } as const]
          : []),
      ];
    case "materials":
      return [
        { key: "id", label: "name", kind: "text" },
        { key: "yield_MPa", label: "yield", kind: "stress", step: 5, usual: 235 },
        { key: "ultimate_MPa", label: "ultimate", kind: "stress", step: 5, usual: 360 },
        { key: "elastic_MPa", label: "elastic", kind: "stress", step: 1000, usual: 210_000, isOptional: true },
        {
          key: "weldFactor",
          label: "weldFactor",
          kind: "number",
          step: 0.05,
          unit: "plain",
          usual: 0.8,
          isOptional: true,
        },
        SOURCE,
      ];
    case "tubes": {
      const kind = document.members.find(({ id }) => id === record.member)?.kind;
      return [
        { key: "member", label: "member", kind: "member" },
        ...(kind === "link" || kind === "wishbone" ? [sectionField(kind)] : []),
        { key: "diameter_mm", label: "diameter", kind: "size" },
        { key: "wall_mm", label: "wall", kind: "size" },
        MATERIAL,
        ...(kind === "ball" || kind === "hinge" ? [{ key: "cut", label: "cut", kind: "cut" } as const] : []),
        ...(kind === "link" || kind === "wishbone" ? [END_CONSTANT] : []),
        { key: "bow_mm", label: "bow", kind: "size", usual: 20, isOptional: true },
        TARGET,
      ];
    }
    case "bolts":
      return [
        JOINT,
        { key: "thread", label: "thread", kind: "choice", options: THREADS.map((value) => ({ value })) },
        { key: "class", label: "class", kind: "choice", options: BOLT_CLASSES.map((value) => ({ value })) },
        {
          key: "planes",
          label: "planes",
          kind: "choice",
          options: [
            { value: 1, word: "single" },
            { value: 2, word: "double" },
          ],
        },
        {
          key: "through",
          label: "through",
          kind: "choice",
          options: [
            { value: undefined, word: "thread" },
            { value: "shank", word: "shank" },
          ],
        },
        { key: "axis", label: "axis", kind: "direction" },
        TARGET,
      ];
    case "plates":
      return [
        JOINT,
        { key: "count", label: "count", kind: "choice", options: [{ value: 1 }, { value: 2 }] },
        { key: "thickness_mm", label: "thickness", kind: "size" },
        { key: "hole_mm", label: "hole", kind: "size" },
        { key: "end_mm", label: "end", kind: "size" },
        { key: "side_mm", label: "side", kind: "size" },
        MATERIAL,
        TARGET,
      ];
    case "welds":
      return [
        JOINT,
        record.leg_mm === undefined
          ? { key: "throat_mm", label: "throat", kind: "size" }
          : { key: "leg_mm", label: "leg", kind: "size" },
        { key: "length_mm", label: "length", kind: "size" },
        { key: "runs", label: "runs", kind: "number", step: 1, unit: "runs", isWhole: true, usual: 2 },
        { key: "lever_mm", label: "lever", kind: "size", usual: 30, isOptional: true },
        MATERIAL,
        TARGET,
      ];
    case "ratings":
      return [JOINT, { key: "static_N", label: "rating", kind: "force", step: 500, usual: 20_000 }, SOURCE, TARGET];
  }
}

const END_CONSTANT: Field = {
  key: "endConstant",
  label: "endConstant",
  kind: "choice",
  options: [
    { value: undefined, word: "pinned" },
    { value: 2, word: "fixedPinned" },
    { value: 4, word: "fixed" },
    { value: 0.25, word: "free" },
  ],
};

function sectionField(kind: "link" | "wishbone"): Field {
  const stretches = kind === "link" ? (["inboard", "outboard"] as const) : (["front", "rear"] as const);
  const options: Option[] = [
    { value: undefined, word: "whole" },
    ...stretches.map((value) => ({ value, word: value })),
  ];
  return { key: "section", label: "section", kind: "choice", options };
}

/**
 * A new record: for a part or joint that was asked for, else for the first that has none. Sizes are nothing and choices not
 * made: nobody's guess is screened.
 */
export function newRecord(
  list: ListName,
  records: readonly LoadRecord[],
  document: SceneDocument,
  of?: string,
): LoadRecord {
  const free = (all: readonly string[], key: string) =>
    all.find((each) => records.every((record) => record[key] !== each)) ?? all[0] ?? "";
  const joints = jointNames(document).filter((joint) => partOfJoint(joint) !== "driveshaft");
  const joint = of && joints.includes(of) ? of : free(joints, "joint");
  const names = records.map(({ id }) => id);
  const number = records.length + 1;
  switch (list) {
    case "cases":
      return { id: t("loads.newCase", { number }), timesStatic: { up: 1 } };
    case "materials":
      return { id: of && !names.includes(of) ? of : t("loads.newMaterial", { number }), yield_MPa: 0, ultimate_MPa: 0 };
    case "tubes": {
      const members = document.members.map(({ id }) => id);
      const member = of && members.includes(of) ? of : free(members, "member");
      return withCut({ member, diameter_mm: 0, wall_mm: 0 }, document);
    }
    case "bolts":
      return { joint };
    case "plates":
      return { joint, thickness_mm: 0, hole_mm: 0, end_mm: 0, side_mm: 0 };
    case "welds":
      return { joint, throat_mm: 0, length_mm: 0, runs: 0 };
    case "ratings":
      return { joint, static_N: 0 };
  }
}

/** Fields of the record that are still to be told. */
export function lacksOf(list: ListName, record: LoadRecord, document: SceneDocument): readonly Field[] {
  return fieldsOf(list, record, document).filter((field) => {
    const value = valueAt(record, field.key);
    if ("isOptional" in field && field.isOptional) return false;
    switch (field.kind) {
      case "text":
        return String(value ?? "").trim() === "";
      case "material":
        return value === undefined;
      case "choice":
        return value === undefined && field.options.every((option) => option.value !== undefined);
      case "number":
        return field.nothing === undefined && !(Number(value) > 0);
      case "size":
      case "force":
      case "stress":
        return !(Number(value) > 0);
      default:
        return false;
    }
  });
}

/** A tube of a part that is one with the hub is cut somewhere; any other is not. Stretches of another kind are let go. */
export function withCut(record: LoadRecord, document: SceneDocument): LoadRecord {
  const { cut, section: _, ...rest } = record;
  const kind = document.members.find(({ id }) => id === record.member)?.kind;
  if (kind !== "ball" && kind !== "hinge") return rest;
  return { ...rest, cut: cut ?? Object.keys(document.points)[0] ?? [0, 0, 0] };
}

/** The value at the key, which may lead into a record within. */
export function valueAt(record: LoadRecord, key: string): unknown {
  const [first, second] = key.split(".") as [string, string?];
  const value = record[first];
  return second === undefined ? value : (value as LoadRecord | undefined)?.[second];
}

/** The record with another value there; undefined leaves it out, and a record within that holds nothing more. */
export function withValue(record: LoadRecord, key: string, value: unknown): LoadRecord {
  const [first, second] = key.split(".") as [string, string?];
  const inner =
    second === undefined ? value : withValue((record[first] as LoadRecord | undefined) ?? {}, second, value);
  const isEmpty = inner === undefined || (second !== undefined && Object.keys(inner as object).length === 0);
  const { [first]: _, ...rest } = record;
  return isEmpty ? rest : { ...record, [first]: inner };
}
