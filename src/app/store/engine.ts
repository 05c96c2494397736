import type { CheckResult } from "../../check/result.ts";
import { drawnPart } from "../../scene/aside.ts";
import type { SceneDocument } from "../../scene/document.ts";
import { InputError } from "../../scene/error.ts";
import { resolveScene } from "../../scene/resolve.ts";
import type { CheckProgress, Job, Workshop } from "../../work/protocol.ts";
import type { App } from "./actions.ts";
import { buildLoop } from "./buildLoop.ts";
import { liveCorner } from "./corners.ts";
import type { AppStore } from "./store.ts";
import { clampTravel } from "./travelReach.ts";
import { drawnDocument } from "./tried.ts";

/** Gathers edits that follow each other fast before the check begins. */
const GATHER_ms = 60;
/** A check of a tried move that has been moved on since may tell its verdicts yet, if it takes no longer than this. */
const PATIENCE_ms = 150;
/** Work shorter than this is not told. */
const QUIET_ms = 300;

export interface Engine {
  stop(): void;
  /** Stops the check and keeps what it found so far. */
  stopCheck(): void;
  checkAgain(): void;
}

/**
 * Keeps bodies and verdicts in step with the shown document: resolve at once, then build and check in the workshop,
 * stopping a check that a newer change has made pointless. What was good stays shown while an error tells why the
 * newest is not.
 */
export function startEngine(store: AppStore, workshop: Workshop): Engine {
  /** Results by document: undoing, and putting a move back, cost nothing. */
  let known = new WeakMap<SceneDocument, CheckResult>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let check: Job<CheckResult> | null = null;
  let turn = 0;
  /** What the running check has found so far. */
  let soFar: CheckResult | null = null;
  /** The running check of a tried move, until it tells every verdict. */
  let following: { readonly turn: number; readonly since_ms: number } | null = null;
  /** The check that begins when the one that is running has told. */
  let next: (() => void) | null = null;

  const fail = (error: unknown): void => {
    if (isAbort(error)) return;
    if (error instanceof InputError) store.setState({ error, checking: null });
    else store.setState({ workTrouble: messageOf(error), checking: null });
  };
  const builds = buildLoop(store, workshop, fail);
  /** Nobody is told of what is so already: a pulled point would call every listener several times a move. */
  const show = (change: Partial<App>): void => {
    const now = store.getState();
    if ((Object.keys(change) as (keyof App)[]).some((key) => !Object.is(now[key], change[key]))) store.setState(change);
  };

  const stopCheck = (): void => {
    clearTimeout(timer);
    turn++;
    check?.stop();
    check = null;
    soFar = null;
    following = null;
    next = null;
    show({ checking: null });
  };

  /** The hand has moved on: the running check may tell where it was a moment ago, then the newest is checked. */
  const letTell = (): void => {
    clearTimeout(timer);
    turn++;
    next = null;
  };

  /** How much longer the running check of a tried move may take to tell. */
  const patience_ms = (): number => (following ? following.since_ms + PATIENCE_ms - performance.now() : 0);

  const begin = (state: App): void => {
    const waits = isTrying(state) && patience_ms() > 0;
    if (waits) letTell();
    else stopCheck();
    let shown: SceneDocument | null;
    try {
      shown = drawnDocument(state);
      if (shown) store.setState(sceneState(state, shown));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      if (waits) stopCheck();
      showKept(state);
      store.setState({ error });
      return;
    }
    builds.want(shown);
    if (!shown) return;
    const document = keptDocument(state);
    const tried = isTrying(state);
    const before = tried && document ? (known.get(document) ?? null) : null;
    const result = known.get(shown);
    if (result) store.setState({ result, ...WHOLE });
    show({ resultBefore: before });
    if (result && (!tried || before)) {
      stopCheck();
      return;
    }
    const [wanted, mine] = [shown, turn];
    const ask = (): void => void work(wanted, mine);
    if (!waits) timer = setTimeout(ask, tried ? 0 : GATHER_ms);
    else {
      next = ask;
      timer = setTimeout(goOn, patience_ms());
    }
  };

  /** Stops the check of where the hand was, and begins the one of where it is. */
  const goOn = (): void => {
    const ask = next;
    clearTimeout(timer);
    check?.stop();
    following = null;
    next = null;
    ask?.();
  };

  /** Every verdict of where the hand was a moment ago. */
  const trail = (result: CheckResult): void => {
    soFar = null;
    store.setState({ result, stale: true, partial: false, trailing: true });
    goOn();
  };

  /** A tried move that cannot be: the car as it is kept, and nothing of a move tried before. Else what was good stays. */
  const showKept = (state: App): void => {
    const document = keptDocument(state);
    if (!document || !isTrying(state)) {
      store.setState({ stale: state.result !== null });
      return;
    }
    const result = known.get(document);
    try {
      store.setState(sceneState(state, document));
      builds.want(document);
    } catch (error) {
      // the kept scene has its own fault, which was told when it was opened
      if (!(error instanceof InputError)) throw error;
    }
    if (result) store.setState({ result, resultBefore: result, ...WHOLE });
    else {
      store.setState({ resultBefore: null, stale: state.result !== null });
      const mine = turn;
      timer = setTimeout(() => void work(document, mine), GATHER_ms);
    }
  };

  const work = async (shown: SceneDocument, mine: number): Promise<void> => {
    const document = keptDocument(store.getState());
    const tried = isTrying(store.getState());
    try {
      following = tried ? { turn: mine, since_ms: performance.now() } : null;
      const result = await checked(shown, progressFrom(mine));
      const isFollowed = following?.turn === mine;
      if (isFollowed && mine !== turn) trail(result);
      if (mine !== turn) return;
      following = null;
      store.setState({ result, ...WHOLE, checking: null });
      if (!tried || !document) return;
      const before = await checked(document, () => {});
      if (mine === turn) store.setState({ resultBefore: before });
    } catch (error) {
      if (mine === turn) fail(error);
    }
  };

  const checked = async (document: SceneDocument, onProgress: (progress: CheckProgress) => void) => {
    const found = known.get(document);
    if (found) return found;
    const files = store.getState().files;
    check = workshop.check(document, files, onProgress);
    const result = await check.done;
    if (files === store.getState().files) known.set(document, result);
    return result;
  };

  const progressFrom = (mine: number) => {
    const since = performance.now();
    return ({ pairsDone, pairsTotal, soFar: found, verdicts }: CheckProgress): void => {
      if (verdicts && following?.turn === mine && mine !== turn) trail(verdicts);
      if (mine !== turn) return;
      if (verdicts) {
        // whole, though not every clearance is exact yet
        soFar = null;
        following = null;
        store.setState({ result: verdicts, ...WHOLE });
      } else if (found) {
        soFar = found;
        // verdicts from before a change stay, greyed, until the new ones are whole; over an empty ledger anything is better
        const { result, partial } = store.getState();
        if (result === null || partial) store.setState({ result: found, ...WHOLE, partial: true });
      }
      if (performance.now() - since > QUIET_ms) store.setState({ checking: { pairsDone, pairsTotal } });
    };
  };

  const unsubscribe = store.subscribe((state, before) => {
    const sameFiles = state.files === before.files;
    if (
      keptDocument(state) === keptDocument(before) &&
      state.tried === before.tried &&
      state.triedEdit === before.triedEdit &&
      sameFiles
    )
      return;
    if (!sameFiles) known = new WeakMap();
    begin(state);
  });
  begin(store.getState());
  return {
    stop() {
      unsubscribe();
      stopCheck();
      builds.want(null);
    },
    stopCheck() {
      const found = soFar;
      stopCheck();
      store.setState({ checkStopped: true, ...(found ? { result: found, ...WHOLE, partial: true } : {}) });
    },
    checkAgain() {
      begin(store.getState());
    },
  };
}

/** Marks of a result that is the check of exactly what is shown. */
const WHOLE = { stale: false, partial: false, trailing: false } as const;

/** The scene of a document that can be shown. Throws InputError for one that cannot. */
function sceneState(state: App, shown: SceneDocument): Partial<App> {
  const scene = resolveScene(shown, state.fileName);
  for (const side of scene.sides) liveCorner(scene, side);
  const poseIsThere = scene.powertrain.poses.some(({ id }) => id === state.pose);
  const [left, right] = (["left", "right"] as const).map((side) => clampTravel({ scene }, side, state.travel_mm[side]));
  const isWhereItWas = left === state.travel_mm.left && right === state.travel_mm.right;
  return {
    scene,
    error: null,
    workTrouble: null,
    checkStopped: false,
    stale: state.result !== null,
    patches: state.patches.size === 0 ? state.patches : new Map(),
    pose: poseIsThere ? state.pose : "rest",
    share: poseIsThere ? state.share : 1,
    travel_mm: isWhereItWas ? state.travel_mm : { left: left!, right: right! },
  };
}

/** What is drawn and checked of the document, whatever is tried. */
function keptDocument({ document }: App): SceneDocument | null {
  return document && drawnPart(document);
}

function isTrying({ tried, triedEdit }: App): boolean {
  return tried !== null || triedEdit !== null;
}

export function isAbort(error: unknown): boolean {
  return error instanceof Error && error.name === "AbortError";
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
