import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { main } from "../../src/cli/main.ts";
import { holds, Refused } from "./door.ts";
import { faultOfText } from "./refusal.ts";

/** What was typed after the program's name, and the files that lie in its folder; `@/` in what is typed is that folder. */
export interface Typed {
  readonly args: readonly string[];
  readonly files: Readonly<Record<string, unknown>>;
}

export interface Answer {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  /** What it wrote, by path within its folder. */
  readonly written: ReadonlyMap<string, Uint8Array>;
}

/** Runs the program in this thread, in a folder of its own. */
export async function typed({ args, files }: Typed): Promise<Answer> {
  const around = process.env.FUZZ_FILES ?? tmpdir();
  const folder = mkdtempSync(join(around, "elbowroom-"));
  const [stdout, stderr] = [process.stdout.write, process.stderr.write];
  let [out, err] = ["", ""];
  try {
    for (const [name, content] of Object.entries(files)) {
      writeFileSync(join(folder, name), typeof content === "string" ? content : JSON.stringify(content));
    }
    mkdirSync(join(folder, "made"));
    process.stdout.write = (text) => {
      out += text;
      return true;
    };
    process.stderr.write = (text) => {
      err += text;
      return true;
    };
    const status = await main(args.map((arg) => arg.replaceAll("@/", `${folder}/`)));
    const within = (text: string) => text.replaceAll(folder, "");
    return { status, out: within(out), err: within(err), written: filesIn(folder, new Set(Object.keys(files))) };
  } finally {
    [process.stdout.write, process.stderr.write] = [stdout, stderr];
    rmSync(folder, { recursive: true, force: true });
  }
}

function filesIn(folder: string, given: ReadonlySet<string>): Map<string, Uint8Array> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  return new Map(
    entries
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
      .filter((name) => !given.has(name))
      .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]),
  );
}

/** Holds an answer to the contract of the terminal (`--help`). @throws Refused where it refuses by place and mend. */
export function judge({ status, out, err, written }: Answer, isJson: boolean): void {
  holds([0, 1, 2].includes(status), `status ${status}: ${err.slice(0, 1000)}`);
  if (status < 2) {
    holds(err === "", `says ${JSON.stringify(err.slice(0, 300))} beside its answer`);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be shown
    holds(!/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/.test(out), "an answer that cannot steer a terminal");
    if (isJson) JSON.parse(out);
    return;
  }
  holds(out === "", "nothing on standard output where it refuses");
  holds(written.size === 0, `nothing written where it refuses: ${[...written.keys()].join(", ")}`);
  holds(/^elbowroom: .+\n$/.test(err), `one line: ${JSON.stringify(err.slice(0, 300))}`);
  // what the builder wrote stands between quotation marks, which it may hold too, and among what is wanted
  const fault = faultOfText(err.trim(), err.split("; wanted: ")[0]!.replace(/".*"/s, '""'));
  holds(fault === null, `refuses so: ${fault}`);
  throw new Refused(err);
}
