import { parseArgs } from "node:util";
import { InputError } from "../scene/error.ts";
import { runCheck } from "./checkVerb.ts";
import { runCurves } from "./curvesVerb.ts";
import { runLoadsVerb } from "./loadsVerb.ts";
import type { VerbOptions, VerbOutcome } from "./verb.ts";

const VERBS: Readonly<Record<string, (scene: string, options: VerbOptions) => Promise<VerbOutcome>>> = {
  check: runCheck,
  curves: runCurves,
  loads: runLoadsVerb,
};

const USAGE = `usage: npm run -s elbowroom -- VERB SCENE [options]

  check SCENE            what touches, over the whole travel and every engine pose
  curves SCENE           wheel angles, damper and driveshaft against travel, as CSV
  loads SCENE            forces in every part under the load cases, and the given sizes screened

  --json                 one JSON document on standard output, nothing else (check, loads)
  --travel FROM:TO:STEP  in place of the scene's own travel, mm (droop negative)
  --pose ID              one powertrain pose

Exit status: 0 nothing clashes, no limit is passed, no factor is below its target; 1 something is; 2 the input is bad.
Geometry only, rigid parts: prove it by hand with the spring out, on stands.
Loads: a reason to stop or to go on to a competent engineer, not a licence to drive.
`;

/** Runs one verb; returns the exit status of the command-line contract. Nothing but the verb's answer goes to standard output. */
export async function main(args: readonly string[]): Promise<number> {
  try {
    const { values, positionals } = parseArgs({
      args: withTravelJoined(args),
      allowPositionals: true,
      options: {
        json: { type: "boolean", default: false },
        travel: { type: "string" },
        pose: { type: "string" },
        help: { type: "boolean", short: "h", default: false },
      },
    });
    const [verb, scene, ...rest] = positionals;
    if (values.help) {
      process.stdout.write(USAGE);
      return 0;
    }
    const run = verb === undefined ? undefined : VERBS[verb];
    if (!run || scene === undefined || rest.length > 0) {
      const wrong = !run
        ? `no verb ${verb ? `"${verb}"` : "given"}`
        : scene === undefined
          ? "no scene given"
          : `too much: ${rest.join(" ")}`;
      process.stderr.write(
        `elbowroom: ${wrong}; wanted: VERB SCENE with a verb of ${Object.keys(VERBS).join(", ")} (--help tells more)\n`,
      );
      return 2;
    }
    const { output, status } = await run(scene, { json: values.json, travel: values.travel, pose: values.pose });
    process.stdout.write(output);
    return status;
  } catch (error) {
    if (error instanceof InputError) {
      process.stderr.write(`elbowroom: ${error.message}\n`);
      return 2;
    }
    if (error instanceof TypeError && "code" in error && String(error.code).startsWith("ERR_PARSE_ARGS")) {
      const unknown = /'(--?[^']*)'/.exec(error.message)?.[1] ?? args.find((arg) => arg.startsWith("-")) ?? "";
      process.stderr.write(
        `elbowroom: option "${unknown}" is not known or lacks its value; --help lists the options\n`,
      );
      return 2;
    }
    throw error;
  }
}

/** `--travel -70:80:5` as one word: a value that begins with a minus would read as an option. */
function withTravelJoined(args: readonly string[]): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    if (joined.at(-1) === "--travel" && /^-[\d.]/.test(arg)) joined[joined.length - 1] = `--travel=${arg}`;
    else joined.push(arg);
  }
  return joined;
}
