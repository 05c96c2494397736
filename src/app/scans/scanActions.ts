import { invertPose, type Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import type { LengthUnit } from "../../scene/meshFiles.ts";
import { freeId } from "../../scene/parts/parts.ts";
import { drawnPose, scanOf, withScan } from "../../scene/parts/scan.ts";
import type { MeshRepair } from "../../scene/scene.ts";
import { openScanDesk, type ScanDesk } from "../../work/scanClient.ts";
import { chooseMesh } from "../files/chooseFiles.ts";
import { keepMesh } from "../store/begin.ts";
import { isAbort } from "../store/engine.ts";
import { rideHeightPoses } from "../store/rideHeight.ts";
import { app } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { placingOf } from "./placing.ts";
import { blankDraft, blankPair, type MatchDraft, nextKey, type PairDraft, type Picking, useScan } from "./scanStore.ts";
import { noPatchText, refusalSentence } from "./words.ts";

let desk: ScanDesk | null = null;

/** A new scan: asks for its file first. */
export function openNewScan(): void {
  useScan.setState({ ...blankDraft(), isOpen: true });
}

/** A scan that is in the scene: its file is read again, everything stands as it was brought in. */
export async function openScanAgain(id: string): Promise<void> {
  const { document, files } = app.getState();
  const scan = document && scanOf(document, id);
  const bytes = scan && files.get(scan.file);
  if (!scan || !document || !bytes) return;
  const { unit, repair, thinned } = scan.reading;
  // it is seen where its mount stands
  const given = drawnPose(invertPose(rideHeightPoses(document)(scan.on)), scan.pose);
  useScan.setState({
    ...blankDraft(),
    isOpen: true,
    editing: id,
    step: "faults",
    file: { name: scan.file, bytes },
    unit,
    repair,
    thinned,
    given,
    id,
    on: scan.on,
    role: scan.role ?? "",
  });
  await readAndLook();
}

export function closeScan(): void {
  desk?.close();
  desk = null;
  useScan.setState(blankDraft());
}

export async function chooseScanFile(): Promise<void> {
  const [file] = await chooseMesh();
  if (file) await takeScanFile(file);
}

/** Reads a mesh file that was chosen or dropped. */
export async function takeScanFile(file: File): Promise<void> {
  desk?.close();
  desk = null;
  const { editing: _, ...blank } = blankDraft();
  useScan.setState({ ...blank, isOpen: true, stage: "reading" });
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const { document } = app.getState();
    const stem = file.name.replace(/\.[^.]*$/, "").replace(/[^\w.-]+/g, "-") || "scan";
    useScan.setState({ file: { name: file.name, bytes }, id: document ? freeId(document, stem) : stem });
    await readAndLook();
  } catch (error) {
    fail(error);
  }
}

/** Stops what is running; a file that was being read is let go. */
export function stopReading(): void {
  closeDesk();
  const { editing } = useScan.getState();
  if (editing !== null) closeScan();
  else useScan.setState({ ...blankDraft(), isOpen: true });
}

function closeDesk(): void {
  desk?.close();
  desk = null;
}

async function readAndLook(): Promise<void> {
  const { file, unit } = useScan.getState();
  if (!file) return;
  desk = openScanDesk((stage, share) => useScan.setState({ stage, share }));
  useScan.setState({ stage: "reading", share: null, trouble: null });
  try {
    const read = await desk.read(file.bytes, file.name);
    useScan.setState({ read, step: "faults" });
    await lookAs(unit ?? read.guess.readings[0]!.unit, useScan.getState().repair);
  } catch (error) {
    fail(error);
  }
}

/** Reads the numbers in another unit, or mends otherwise. What was picked on the mesh goes where the unit changes. */
export async function lookAs(unit: LengthUnit, repair: MeshRepair | null): Promise<void> {
  if (!desk) return;
  const { unit: before, look } = useScan.getState();
  const isOther = before !== null && before !== unit;
  useScan.setState({
    unit,
    repair,
    stage: "looking",
    trouble: null,
    ...(isOther ? { pairs: [blankPair(), blankPair(), blankPair()], matches: [] } : {}),
    // what was proved of another mesh is not proved of this one
    ...(look ? { thinned: null } : {}),
    thinning: null,
  });
  try {
    const look = await desk.look(unit, repair);
    useScan.setState({ look, stage: null });
  } catch (error) {
    fail(error);
  }
}

function fail(error: unknown): void {
  if (isAbort(error)) return;
  const trouble =
    error instanceof InputError ? refusalSentence(error) : error instanceof Error ? error.message : String(error);
  // without a mesh to look at there is nothing to do but choose another file
  useScan.setState(({ look, step }) => ({ stage: null, trouble, step: look ? step : "file" }));
}

export function changePair(key: number, change: Partial<PairDraft>): void {
  useScan.setState(({ pairs }) => ({ pairs: pairs.map((pair) => (pair.key === key ? { ...pair, ...change } : pair)) }));
}

export function changeMatch(key: number, change: Partial<MatchDraft>): void {
  useScan.setState(({ matches }) => ({
    matches: matches.map((match) => (match.key === key ? { ...match, ...change } : match)),
  }));
}

export function addMatch(kind: MatchDraft["kind"]): void {
  const key = nextKey();
  useScan.setState(({ matches }) => ({ matches: [...matches, { key, kind, patch: null, target: null }] }));
  pickNext({ kind: "match", key, end: "scan" });
}

/** What the next tap is for; the picture shows where it is to be made. */
export function pickNext(picking: Picking | null): void {
  useScan.setState(picking ? { picking, shown: picking.end, trouble: null } : { picking });
}

/** A tap on the scan, in its own axes. */
export async function pickOnScan(from: Vec3, way: Vec3): Promise<void> {
  const { picking, look } = useScan.getState();
  if (!desk || !picking || picking.end !== "scan" || !look) return;
  try {
    const at = await desk.hit(from, way);
    if (!at) return;
    if (picking.kind === "pair") {
      changePair(picking.key, { scan: at });
      pickNext({ ...picking, end: "car" });
      return;
    }
    const kind = useScan.getState().matches.find(({ key }) => key === picking.key)?.kind ?? "plane";
    const patch = await desk.patch(at, kind, Math.max(5, 0.03 * Math.hypot(...look.report.size_mm)));
    if (!patch) {
      useScan.setState({ trouble: noPatchText(kind) });
      return;
    }
    changeMatch(picking.key, { patch });
    pickNext({ ...picking, end: "car" });
  } catch (error) {
    fail(error);
  }
}

/** After a place in the car: the next pair that has no place on the scan. */
export function afterCarPick(): void {
  const { picking, pairs } = useScan.getState();
  const next = picking?.kind === "pair" ? pairs.find(({ scan }) => scan === null) : undefined;
  if (next) pickNext({ kind: "pair", key: next.key, end: "scan" });
  else useScan.setState({ picking: null, shown: "both" });
}

let thinningNow: { stop(): void } | null = null;

/** null: checked as it is. */
export async function thinTo(within_mm: number | null): Promise<void> {
  thinningNow?.stop();
  useScan.setState({ thinned: null, thinning: null, trouble: null });
  if (within_mm === null || !desk) return;
  useScan.setState({ stage: "thinning" });
  const job = desk.thin(within_mm);
  thinningNow = job;
  try {
    const found = await job.done;
    useScan.setState({ stage: null, thinning: found ?? "nothing", thinned: found?.thinned ?? null });
  } catch (error) {
    fail(error);
    if (thinningNow === job) useScan.setState({ stage: null });
  }
}

export function stopThinning(): void {
  thinningNow?.stop();
}

/** One step of the document: the part and its file together. null when done, else why it cannot be. */
export async function bringIn(stepName: string): Promise<string | null> {
  const { document, files } = app.getState();
  const draft = useScan.getState();
  if (!document || !draft.file || !draft.unit) return null;
  const { editing, on, unit, repair, thinned } = draft;
  const id = editing ?? draft.id.trim();
  const file = editing ? draft.file.name : freeFileName(draft.file.name, draft.file.bytes, files);
  try {
    const pose = drawnPose(mountPose(document, on), placingOf(draft).pose);
    const role = draft.role.trim() || null;
    const next = withScan(document, { id, on, role, file, reading: { unit, repair, thinned }, pose }, editing);
    const reading = { unit, repair, thinned };
    const solid = desk && (await desk.ready(thinned));
    if (solid) keepMesh(draft.file.bytes, file, reading, solid);
    app.getState().bringIn(stepName, next, new Map([[file, draft.file.bytes]]));
    if (app.getState().document !== next) return t("scans.notYours");
  } catch (error) {
    if (error instanceof InputError) return refusalSentence(error);
    throw error;
  }
  closeScan();
  app.getState().hold(id);
  return null;
}

function mountPose(document: SceneDocument, on: string): Pose {
  return rideHeightPoses(document)(on);
}

/** The file's own name, so that the file beside a saved scene is found; another where another file has it already. */
function freeFileName(name: string, bytes: Uint8Array, files: ReadonlyMap<string, Uint8Array>): string {
  const [, stem, ending] = /^(.*)(\.[^.]*)$/.exec(name) as unknown as [string, string, string];
  for (let i = 1; ; i++) {
    const candidate = i === 1 ? name : `${stem}-${i}${ending}`;
    const known = files.get(candidate);
    if (!known || isSame(known, bytes)) return candidate;
  }
}

function isSame(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
