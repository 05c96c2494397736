import type { CheckResult, StateAt } from "../check/result.ts";
import type { Envelope } from "../clearance/envelope/envelope.ts";
import type { Gap } from "../clearance/gap.ts";
import type { ModelFormat } from "../fabrication/exchange/modelFile.ts";
import type { StandingState } from "../fabrication/exchange/standing.ts";
import type { Solid } from "../geometry/solid.ts";
import type { LoadsReport } from "../loads/report.ts";
import type { Pose } from "../maths/pose.ts";
import type { SceneDocument } from "../scene/document.ts";
import type { MeshReading } from "../scene/meshFiles.ts";
import type { AsBuilt, StatedMeans } from "../studies/asBuilt/asBuilt.ts";
import type { PullRequest, WeldPull } from "../studies/asBuilt/weldPull.ts";
import type { WantedAngles } from "../studies/jig/inverse.ts";
import type { JigRequest, JigResult } from "../studies/jig/jig.ts";
import type { MovesRequest, MovesResult } from "../studies/moves/moves.ts";
import type { RoomRequest } from "../studies/room/room.ts";
import type { ServiceQuestion, ServiceReport } from "../studies/service/service.ts";
import type { Together } from "../studies/together/together.ts";
import type { CorrectionOfMount } from "./corrections.ts";
import type { DrawnBody, DrawnContact } from "./drawn.ts";
import type { GearReport } from "./gearReport.ts";
import type { MadePicture, PictureRequest } from "./pictureRoom.ts";
import type { RoomFrame, RoomNews } from "./roomShare.ts";

/** Bytes of the mesh files that a scene names, by the name the scene gives them. */
export type SceneFiles = ReadonlyMap<string, Uint8Array>;

export interface PairsDone {
  readonly pairsDone: number;
  readonly pairsTotal: number;
}

export interface CheckProgress extends PairsDone {
  /** The result of the pairs done so far, now and then; nearest pairs come first. */
  readonly soFar?: CheckResult;
  /** After an edit, once: every verdict, some clearances as `isAtLeast`; the rest of the check makes these exact. */
  readonly verdicts?: CheckResult;
}

/** A long job: its outcome, and the means to stop it. A stopped job rejects with an AbortError. */
export interface Job<T> {
  readonly done: Promise<T>;
  stop(): void;
}

export interface PatchRequest {
  readonly document: SceneDocument;
  /** Keys of two model bodies (PairVerdict.keys). */
  readonly keys: readonly [string, string];
  /** One state, or the worst over the whole travel in that pose. */
  readonly at: StateAt | { readonly pose: string; readonly travel_mm: "worst" };
}

/** Gaps of pairs of bodies where they are shown. */
export interface GapRequest {
  readonly document: SceneDocument;
  readonly pairs: readonly GapPair[];
}

export interface GapPair {
  /** Keys of two model bodies. */
  readonly keys: readonly [string, string];
  /** Where each of them is (maths/pose.ts). */
  readonly poses: readonly [Pose, Pose];
}

/** The room that a body sweeps through over the travel and every powertrain pose. */
export interface EnvelopeRequest {
  readonly document: SceneDocument;
  /** Keys of the body and of the one that it is seen from; null: the car. */
  readonly key: string;
  readonly on: string | null;
  readonly accuracy_mm: number;
  /** Of the envelope that the asker has: where that is still the one, nothing is sent. */
  readonly have: string | null;
}

export type EnvelopeAnswer =
  | { readonly kind: "same" }
  | { readonly kind: "made"; readonly name: string; readonly envelope: Envelope }
  /** The scene lacks the body, or the one it is seen from. */
  | { readonly kind: "missing" };

/** How far a study is, in steps of its own. */
export interface StudyProgress {
  readonly done: number;
  readonly total: number;
}

/** What a study is asked, but for the meshes, which the workers have. */
export type Question<Request extends { readonly meshFiles: unknown }> = Omit<Request, "meshFiles">;

export interface AsBuiltQuestion {
  readonly document: SceneDocument;
  /** What can be set on the car; null: nothing is told. */
  readonly stated: StatedMeans | null;
}

export type OnStudyProgress = (progress: StudyProgress) => void;

/** How a room map comes on; places come from all workers, coarse to fine. */
export interface RoomListener {
  /** Once, before any place. */
  onFrame(frame: RoomFrame): void;
  onNews(news: RoomNews): void;
}

/** What the app asks of the machine room, off the main thread. The terminal calls the same functions directly. */
export interface Workshop {
  /** Bodies of the scene for the view; typed arrays are the caller's to keep. Rejects with an InputError. */
  build(document: SceneDocument, files: SceneFiles): Job<readonly DrawnBody[]>;
  check(document: SceneDocument, files: SceneFiles, onProgress: (progress: CheckProgress) => void): Job<CheckResult>;
  patch(request: PatchRequest, files: SceneFiles): Job<DrawnContact>;
  /** In the order of the pairs; null for a pair of which the scene lacks a body. */
  gaps(request: GapRequest, files: SceneFiles): Job<readonly (Gap | null)[]>;
  /** All load cases over the travel with the powertrain in a pose, the worst of every part, and the screening. */
  loads(document: SceneDocument, pose: string): Job<LoadsReport>;
  /** Driveshafts, dampers, springs and joints over the travel and every powertrain pose; `spare_mm` as gearReport takes it. */
  gear(document: SceneDocument, spare_mm: number): Job<GearReport>;
  /** `onProgress` hears the share done. */
  envelope(request: EnvelopeRequest, files: SceneFiles, onProgress: (share: number) => void): Job<EnvelopeAnswer>;
}

export interface TogetherQuestion {
  readonly document: SceneDocument;
}

/** Studies asked of the machine room; a worker of its own is at them, so that no check waits. */
export interface StudyRoom {
  /** The smallest moves that clear pairs. */
  moves(question: Question<MovesRequest>, files: SceneFiles, onProgress: OnStudyProgress): Job<MovesResult>;
  /** How exactly mounts must be placed, and what all their tolerances do together. */
  jig(question: Question<JigRequest>, files: SceneFiles, onProgress: OnStudyProgress): Job<JigResult>;
  /** Of every mount where it alone must go for angles to be as wanted. */
  corrections(document: SceneDocument, wanted: WantedAngles): Job<readonly CorrectionOfMount[]>;
  /** What the mounts as they were measured on the car do. */
  asBuilt(question: AsBuiltQuestion, files: SceneFiles): Job<AsBuilt>;
  /** What welding may pull the mounts to, and what can be set back. */
  weldPull(request: PullRequest): Job<WeldPull>;
  /** Whether tools reach and parts come out. */
  service(question: Question<ServiceQuestion>, files: SceneFiles, onProgress: OnStudyProgress): Job<ServiceReport>;
  /** What may happen together and must be clear, and what cannot. */
  together(question: TogetherQuestion, files: SceneFiles): Job<Together>;
  /** Where hard points may live: shared by all workers, which give way to checks. What has been told stays good when it is stopped. */
  room(question: Question<RoomRequest>, files: SceneFiles, listener: RoomListener): Job<void>;
  /** Makes what a room map begins with while it is not asked yet, on the worker that no check waits for; tells nothing. */
  readyRoom(question: Question<RoomRequest>, files: SceneFiles): Job<void>;
}

/** Where files are made of the car as it stands. */
export interface FileRoom {
  /** The car drawn to scale in one state. */
  picture(request: PictureRequest, files: SceneFiles): Job<MadePicture>;
  /** The bodies as they stand in one state. */
  model(request: ModelRequest, files: SceneFiles): Job<Uint8Array<ArrayBuffer>>;
}

export interface ModelRequest {
  readonly document: SceneDocument;
  readonly state: StandingState;
  readonly format: ModelFormat;
  /** Id or key of the one part that is wanted; null: all. */
  readonly part: string | null;
}

/** Where a mesh goes that was made outside the pool, so that the pool does not make it again. */
export interface MeshKeeper {
  /** What these very bytes make when they are read like that, in shared memory. */
  keepMesh(bytes: Uint8Array, file: string, reading: MeshReading, solid: Solid): void;
}
