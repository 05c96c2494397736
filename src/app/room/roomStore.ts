import { create } from "zustand";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import type { RoomRequest } from "../../studies/room/room.ts";
import type { Question } from "../../work/protocol.ts";
import { app } from "../store/useApp.ts";
import type { RoomForm, Way } from "./roomForm.ts";
import type { ComingMap } from "./roomTold.ts";

/** What is looked for, and what has been told of it. */
export interface RoomRun {
  readonly question: Question<RoomRequest>;
  readonly ways: readonly Way[];
  /** The document whose points it moves, as it was kept. */
  readonly document: SceneDocument;
  /** Where the first of the points was, car coordinates of the left side, mm. */
  readonly base: Vec3;
}

interface RoomLook {
  /** null: what is usual for the held point. */
  readonly form: RoomForm | null;
  readonly isFormOpen: boolean;
  /** null: nothing was looked for yet. */
  readonly run: RoomRun | null;
  /** null until the first is told of the run. */
  readonly map: ComingMap | null;
  /** Grows with everything that is told. */
  readonly version: number;
  readonly done: number;
  /** How fine the places are that were told last: every 2^level-th along each direction. */
  readonly level: number;
  readonly isRunning: boolean;
  readonly error: InputError | null;
  /** The place that is looked at. */
  readonly place: number | null;
  /** The place under the pointer. */
  readonly pointed: number | null;
  /** Through which span the slices run. */
  readonly through: number;
  readonly showsRefused: boolean;
}

const NOTHING: RoomLook = {
  form: null,
  isFormOpen: true,
  run: null,
  map: null,
  version: 0,
  done: 0,
  level: 0,
  isRunning: false,
  error: null,
  place: null,
  pointed: null,
  through: 1,
  showsRefused: true,
};

/** Neither saved nor undone. */
export const useRoom = create<RoomLook>()(() => NOTHING);

app.subscribe((state, before) => {
  if (state.fileName !== before.fileName) useRoom.setState(NOTHING);
});
