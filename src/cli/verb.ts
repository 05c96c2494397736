import { parseArgs } from "node:util";

/** What a verb prints and the exit status it asks for. */
export interface VerbOutcome {
  readonly output: string;
  readonly status: 0 | 1 | 2;
}

/** Every option of every verb, as parseArgs takes them. */
export const OPTIONS = {
  to: { type: "string" },
  at: { type: "string" },
  from: { type: "string" },
  datum: { type: "string" },
  json: { type: "boolean", default: false },
  help: { type: "boolean", short: "h", default: false },
  travel: { type: "string" },
  pose: { type: "string" },
  roll: { type: "string" },
  spare: { type: "string" },
  point: { type: "string", multiple: true },
  fit: { type: "string" },
  forward: { type: "string" },
  out: { type: "string" },
  up: { type: "string" },
  line: { type: "string" },
  step: { type: "string" },
  "travel-step": { type: "string" },
  "toe-change": { type: "string" },
  camber: { type: "string" },
  "half-track-change": { type: "string" },
  "damper-ratio": { type: "string" },
  length: { type: "string", multiple: true },
  "leave-out": { type: "string", multiple: true },
  shard: { type: "string" },
  place: { type: "string" },
  tolerance: { type: "string", multiple: true },
  toe: { type: "string" },
  "toe-within": { type: "string" },
  "camber-within": { type: "string" },
  accuracy: { type: "string" },
  samples: { type: "string" },
  seed: { type: "string" },
  mount: { type: "string" },
  slot: { type: "string", multiple: true },
  shim: { type: "string", multiple: true },
  adjuster: { type: "string", multiple: true },
  pull: { type: "string", multiple: true },
  pair: { type: "string" },
  within: { type: "string" },
  job: { type: "string", multiple: true },
  on: { type: "string" },
  facing: { type: "string" },
  socket: { type: "string" },
  part: { type: "string" },
  straight: { type: "string", multiple: true },
  paper: { type: "string" },
  card: { type: "string", multiple: true },
  units: { type: "string" },
  without: { type: "string", multiple: true },
  view: { type: "string" },
  side: { type: "string" },
  scale: { type: "string" },
  portrait: { type: "boolean" },
  size: { type: "string" },
  dpi: { type: "string" },
  dimension: { type: "string", multiple: true },
  gap: { type: "string", multiple: true },
  measure: { type: "string", multiple: true },
  outline: { type: "string", multiple: true },
  around: { type: "string", multiple: true },
  revision: { type: "string" },
  date: { type: "string" },
  built: { type: "boolean" },
  note: { type: "string" },
  fold: { type: "string", multiple: true },
  "k-factor": { type: "string" },
  "bend-radius": { type: "string" },
  measured: { type: "string" },
  bare: { type: "boolean" },
  saw: { type: "string" },
  trim: { type: "string" },
  stock: { type: "string" },
  table: { type: "string" },
  bar: { type: "string" },
} as const;

export type OptionName = keyof typeof OPTIONS;

export type VerbOptions = Partial<ReturnType<typeof parseOptions>["values"]>;

/** Throws the TypeErrors of parseArgs. */
export function parseOptions(args: readonly string[]) {
  return parseArgs({ args: withNumbersJoined(args), allowPositionals: true, options: OPTIONS });
}

/** `--travel -70:80:5` as one word: a value that begins with a minus would read as an option. */
function withNumbersJoined(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const last = joined.at(-1) ?? "";
    const name = last.replace(/^--/, "");
    const takesValue =
      last.startsWith("--") && Object.hasOwn(OPTIONS, name) && OPTIONS[name as OptionName].type === "string";
    if (takesValue && /^-[\d.]/.test(arg)) joined[joined.length - 1] = `${last}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

export interface Verb {
  readonly run: (paths: readonly string[], options: VerbOptions) => Promise<VerbOutcome>;
  /** What it takes beside --json and --help. */
  readonly options: readonly OptionName[];
  /** Takes several files. */
  readonly many?: true;
}
