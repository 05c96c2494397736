import type { PartGroup } from "../../check/model.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { Side } from "../../scene/scene.ts";
import type { SceneFiles } from "../../work/protocol.ts";
import type {
  AppState,
  DocumentState,
  Place,
  SessionState,
  Show,
  Stand,
  Theme,
  TriedEdit,
  TriedMove,
  Unit,
} from "./state.ts";

export interface DocumentActions {
  /** Opens a scene as a step of its own, so that undoing leads back to the scene before. */
  openDocument(document: SceneDocument, fileName: string, files?: ReadonlyMap<string, Uint8Array>): void;
  /** One named step: `stepName` follows the word Undo ("upper link 4 up"). */
  edit(stepName: string, document: SceneDocument): void;
  /** One named step that brings mesh files with it; undoing it leaves them for redoing. */
  bringIn(stepName: string, document: SceneDocument, files: SceneFiles): void;
  /** A step that changes measures or loads alone: what is tried stays tried. */
  editAside(stepName: string, change: (document: SceneDocument) => SceneDocument): void;
  /** Shows a step of a project that was opened: no edit, and no step. `keep` leaves the look at the car as it is. */
  showDocument(step: DocumentState, files: SceneFiles, look: "keep" | "fresh"): void;
  /** Mesh files that the open scene names. */
  addFiles(files: SceneFiles): void;
  undo(steps?: number): void;
  redo(steps?: number): void;
  tryMove(move: TriedMove): void;
  tryEdit(edit: TriedEdit): void;
  /** Makes the tried edit a step of the document, under its own name. */
  keepEdit(): void;
  /** Makes the tried move a step of the document. */
  keepMove(stepName: string): void;
  putBack(): void;
  /** Writes why the pair may touch or be tight into the scene. */
  acceptPair(a: string, b: string, why: string): void;
  /** Takes the reason out again: the pair counts. */
  countPair(a: string, b: string): void;
}

export interface SessionActions {
  setTravel(side: Side, travel_mm: number): void;
  /** Moves both wheels as the wheels chooser says, the left one by `by_mm`. */
  stepTravel(by_mm: number): void;
  setWheels(wheels: SessionState["wheels"]): void;
  /** `share`: how far from rest to it, all the way if left out. */
  setPose(pose: string, share?: number): void;
  stepPose(by: 1 | -1): void;
  setStand(stand: Stand | null): void;
  setShow(group: PartGroup, show: Show): void;
  hold(part: string | null): void;
  /** Turns the held part to glass, or back. */
  toggleGlassHeld(): void;
  holdPoint(point: string | null): void;
  /** Takes the wheel and the engine to where the pair is closest; null lets go. */
  choosePair(key: string | null): void;
  setCloseLook(closeLook: boolean): void;
  setPlace(place: Place): void;
  setUnit(unit: Unit): void;
  setTheme(theme: Theme): void;
  setStayAwake(stayAwake: boolean): void;
  readCautions(): void;
  setCardOpen(open: boolean): void;
}

export type App = AppState & DocumentActions & SessionActions;
export type SetApp = (part: Partial<AppState>) => void;
export type GetApp = () => App;
