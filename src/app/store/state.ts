import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { CheckResult, PairVerdict, StateAt } from "../../check/result.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import type { Scene, Side } from "../../scene/scene.ts";
import type { DrawnContact } from "../../work/drawn.ts";
import type { SceneFiles } from "../../work/protocol.ts";

export type Place = "setup" | "corner" | "points" | "log";
export type Stand = "behind" | "left" | "right" | "above";
export type Unit = "mm" | "in";
export type Theme = "daylight" | "garage";
export type Show = "solid" | "glass" | "off";

/** cut: the wheel stays, members on the point get new lengths; bolt: every part keeps its length, the wheel moves. */
export type MoveMeaning = "cut" | "bolt";

/** A move that is looked at but not kept yet. */
export interface TriedMove {
  readonly point: string;
  readonly to: Vec3;
  readonly meaning: MoveMeaning;
}

/** Another edit that is looked at but not kept yet: sizes of a part, its place, the powertrain's. */
export interface TriedEdit {
  /** Id of the part that is in hand. */
  readonly part: string;
  /** The whole document as it would be. */
  readonly document: SceneDocument;
  /** As edit() takes it. */
  readonly stepName: string;
}

/** What is saved and undone. */
export interface DocumentState {
  /** null until a scene is open. */
  readonly document: SceneDocument | null;
  readonly fileName: string;
  /** Says what the last step did, for "Undo: …". */
  readonly stepName: string;
}

/** What a look at the document needs, never saved with it. */
export interface SessionState {
  readonly place: Place;
  readonly travel_mm: Readonly<Record<Side, number>>;
  readonly wheels: "together" | "opposed";
  readonly pose: string;
  /** How far the engine has got from rest (0) to the pose (1). */
  readonly share: number;
  /** null: the builder orbited away from the last stand. */
  readonly stand: Stand | null;
  readonly show: Readonly<Record<PartGroup, Show>>;
  /** Body id held (selected). */
  readonly heldPart: string | null;
  readonly heldPoint: string | null;
  /** Body ids that the builder turned to glass one by one. */
  readonly glassParts: readonly string[];
  /** pairKey() of the verdict whose touch is looked at. */
  readonly chosenPair: string | null;
  /** Whether the chosen touch is shown from close by too. */
  readonly closeLook: boolean;
  readonly tried: TriedMove | null;
  /** Never together with a tried move. */
  readonly triedEdit: TriedEdit | null;
  readonly unit: Unit;
  readonly theme: Theme;
}

/** What is computed from the shown document (the tried move applied). */
export interface ShownState {
  /** The last good scene; stays while `error` tells why the newest input is not usable. */
  readonly scene: Scene | null;
  readonly error: InputError | null;
  readonly bodies: readonly ModelBody[];
  readonly result: CheckResult | null;
  /** The result of the kept document while a move is tried. */
  readonly resultBefore: CheckResult | null;
  readonly checking: { readonly pairsDone: number; readonly pairsTotal: number } | null;
  /** True while `result` belongs to an older input than the one shown. */
  readonly stale: boolean;
  /** True while `result`, stale, is of the tried move as it was a moment ago: the hand moves it on. */
  readonly trailing: boolean;
  /** True while `result` holds only the pairs that were checked so far, the nearest first. */
  readonly partial: boolean;
}

/** A contact patch, and the state it was asked for. */
export interface PatchInHand {
  readonly at: StateAt;
  readonly patch: DrawnContact;
}

/** How the work fares outside the document: storage, the workshop, first start. */
export interface HouseState {
  /** False until the storage has been read. */
  readonly ready: boolean;
  /** When the document was last saved in this browser, ms since 1970; null: not yet. */
  readonly saved_ms: number | null;
  /** Why the storage does not take the document. */
  readonly saveTrouble: string | null;
  /** Why the workshop gave no result; not for what is wrong in the scene, which is `error`. */
  readonly workTrouble: string | null;
  /** Why part of the work was begun anew by another worker, until the builder has read it; null: it was not. */
  readonly workAnew: string | null;
  /** The builder stopped the check of what is shown. */
  readonly checkStopped: boolean;
  readonly cautionsRead: boolean;
  /** A job card is being made from what is shown. */
  readonly cardOpen: boolean;
  /** mine: this tab may change the project; watched: another tab has it; cut off: its changes here cannot be saved to it. */
  readonly standing: "mine" | "watched" | "cut-off";
  /** How often a change was refused because the project is not this tab's to change. */
  readonly refusedEdits: number;
  /** The builder wants the screen to stay awake. */
  readonly stayAwake: boolean;
  /** Bytes of the mesh files that the scene names. */
  readonly files: SceneFiles;
  /** By pairKey(). */
  readonly patches: ReadonlyMap<string, PatchInHand>;
}

export type AppState = DocumentState & SessionState & ShownState & HouseState;

export function pairKey(pair: Pick<PairVerdict, "side" | "a" | "b">): string {
  let key = pairKeys.get(pair);
  if (key === undefined) {
    key = `${pair.side}/${pair.a}/${pair.b}`;
    pairKeys.set(pair, key);
  }
  return key;
}

/** A result has pairs by the thousand, and most are the same objects from one result to the next. */
const pairKeys = new WeakMap<Pick<PairVerdict, "side" | "a" | "b">, string>();

/** Whether the engine is as far on the same way as in that state. */
export function isInPose(at: Pick<StateAt, "pose" | "share">, pose: string, share = 1): boolean {
  return at.pose === pose && (at.share ?? 1) === share;
}
