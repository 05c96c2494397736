import type { Page } from "playwright-core";

/** One task of a page's main thread. */
export interface Task {
  /** What the browser calls the part of it that took longest. */
  readonly kind: string;
  /** Time of the processor, not of the clock. */
  readonly processor_ms: number;
}

/** An event of the browser's own trace; times in µs. */
interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

const CATEGORIES = ["toplevel", "devtools.timeline", "__metadata"];

/** The browser's trace of what it does meanwhile. */
export async function traced(page: Page, work: () => Promise<void>): Promise<TraceEvent[]> {
  const client = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  client.on("Tracing.dataCollected", ({ value }) => {
    events.push(...(value as unknown as TraceEvent[]));
  });
  await client.send("Tracing.start", {
    transferMode: "ReportEvents",
    traceConfig: { includedCategories: CATEGORIES },
  });
  await work();
  const complete = new Promise<void>((resolve) => client.once("Tracing.tracingComplete", () => resolve()));
  await client.send("Tracing.end");
  await complete;
  await client.detach();
  return events;
}

/** Tasks of the main thread of the page that ran the most of the page's functions. */
export function mainThreadTasks(events: readonly TraceEvent[]): Task[] {
  const mains = new Set(
    events
      .filter(({ name, args }) => name === "thread_name" && args?.name === "CrRendererMain")
      .map(({ pid, tid }) => `${pid}/${tid}`),
  );
  const calls = new Map<string, TraceEvent[]>();
  for (const event of events) {
    const thread = `${event.pid}/${event.tid}`;
    if (event.ph !== "X" || !mains.has(thread)) continue;
    const ofThread = calls.get(thread);
    if (ofThread) ofThread.push(event);
    else calls.set(thread, [event]);
  }
  const counts = (all: readonly TraceEvent[]) => all.filter(({ name }) => name === "FunctionCall").length;
  const [busiest = []] = [...calls.values()].sort((a, b) => counts(b) - counts(a));
  const inOrder = busiest.sort((a, b) => a.ts - b.ts);
  const tasks = inOrder.filter(({ name }) => name.endsWith("RunTask"));
  const parts = inOrder.filter(({ name }) => KINDS.has(name));
  let next = 0;
  return tasks.map((task) => {
    const end = task.ts + (task.dur ?? 0);
    while (next < parts.length && parts[next]!.ts < task.ts) next++;
    let longest: TraceEvent | null = null;
    for (let i = next; i < parts.length && parts[i]!.ts < end; i++) {
      if ((parts[i]!.tdur ?? 0) > (longest?.tdur ?? 0)) longest = parts[i]!;
    }
    return { kind: longest?.name ?? "other", processor_ms: (task.tdur ?? 0) / 1000 };
  });
}

/** Names of the trace that say why a task ran. */
const KINDS = new Set([
  "FireAnimationFrame",
  "HandlePostMessage",
  "TimerFire",
  "EventDispatch",
  "RunMicrotasks",
  "Layout",
  "UpdateLayoutTree",
  "Paint",
  "MinorGC",
  "MajorGC",
]);
