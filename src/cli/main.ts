import { InputError } from "../scene/error.ts";
import { shownText, terminalText } from "../scene/shownText.ts";
import { AS_BUILT_OPTIONS, runAsBuilt } from "./asBuiltVerb.ts";
import { runCheck } from "./checkVerb.ts";
import { runCurves } from "./curvesVerb.ts";
import { EXPORT_OPTIONS, runExport } from "./exportVerb.ts";
import { JIG_OPTIONS, runJig } from "./jigVerb.ts";
import { runJoints } from "./jointsVerb.ts";
import { runLoadsVerb } from "./loadsVerb.ts";
import { MOVES_OPTIONS, runMoves } from "./movesVerb.ts";
import { PICTURE_OPTIONS, runPicture } from "./pictureVerb.ts";
import { POINTS_OPTIONS, runPoints } from "./pointsVerb.ts";
import { REPORT_OPTIONS, runReport } from "./reportVerb.ts";
import { ROOM_OPTIONS, runMerge, runRoom } from "./roomVerb.ts";
import { runService, SERVICE_OPTIONS } from "./serviceVerb.ts";
import { runShaft } from "./shaftVerb.ts";
import {
  CUT_LIST_OPTIONS,
  JIG_SHEET_OPTIONS,
  POINT_SHEET_OPTIONS,
  runCutList,
  runJigSheet,
  runPointSheet,
} from "./sheetVerbs.ts";
import { runSpring } from "./springVerb.ts";
import { runTemplate, TEMPLATE_OPTIONS } from "./templateVerb.ts";
import { runTogether } from "./togetherVerb.ts";
import { usage, usageOf } from "./usage.ts";
import { parseOptions, type Verb, type VerbOptions } from "./verb.ts";

const VERBS: Readonly<Record<string, Verb>> = {
  check: { run: ([scene], options) => runCheck(scene!, options), options: ["travel", "pose"] },
  curves: { run: ([scene], options) => runCurves(scene!, options), options: ["travel", "pose", "roll"] },
  shaft: { run: ([scene], options) => runShaft(scene!, options), options: ["travel", "spare"] },
  spring: { run: ([scene], options) => runSpring(scene!, options), options: ["travel"] },
  joints: { run: ([scene], options) => runJoints(scene!, options), options: ["travel"] },
  loads: { run: ([scene], options) => runLoadsVerb(scene!, options), options: ["travel", "pose"] },
  room: { run: ([scene], options) => runRoom(scene!, options), options: ROOM_OPTIONS },
  moves: { run: ([scene], options) => runMoves(scene!, options), options: MOVES_OPTIONS },
  jig: { run: ([scene], options) => runJig(scene!, options), options: JIG_OPTIONS },
  asbuilt: { run: ([scene], options) => runAsBuilt(scene!, options), options: AS_BUILT_OPTIONS },
  service: { run: ([scene], options) => runService(scene!, options), options: SERVICE_OPTIONS },
  together: { run: ([scene], options) => runTogether(scene!, options), options: ["travel"] },
  points: { run: ([scene], options) => runPoints(scene!, options), options: POINTS_OPTIONS },
  export: { run: ([scene], options) => runExport(scene!, options), options: EXPORT_OPTIONS },
  template: { run: ([scene], options) => runTemplate(scene!, options), options: TEMPLATE_OPTIONS },
  picture: { run: ([scene], options) => runPicture(scene!, options), options: PICTURE_OPTIONS },
  report: { run: ([log], options) => runReport(log!, options), options: REPORT_OPTIONS },
  pointsheet: { run: ([scene], options) => runPointSheet(scene!, options), options: POINT_SHEET_OPTIONS },
  jigsheet: { run: ([scene], options) => runJigSheet(scene!, options), options: JIG_SHEET_OPTIONS },
  cutlist: { run: ([scene], options) => runCutList(scene!, options), options: CUT_LIST_OPTIONS },
  merge: { run: runMerge, options: [], many: true },
};

/** Runs one verb; returns the exit status of the command-line contract. Nothing but the verb's answer goes to standard output. */
export async function main(args: readonly string[]): Promise<number> {
  try {
    const { values, positionals } = parseOptions(args);
    const [name, ...paths] = positionals;
    if (values.help) {
      process.stdout.write(isVerb(name) ? usageOf(name, VERBS[name]!.options) : usage());
      return 0;
    }
    const verb = isVerb(name) ? VERBS[name] : undefined;
    if (!verb || paths.length === 0 || (paths.length > 1 && !verb.many)) {
      const wrong = !verb
        ? `no verb ${name ? `"${name}"` : "given"}`
        : paths.length === 0
          ? `no ${verb.many ? "file" : "scene"} given`
          : `too much: ${paths.slice(1).join(" ")}`;
      process.stderr.write(
        `elbowroom: ${wrong}; wanted: VERB SCENE with a verb of ${Object.keys(VERBS).join(", ")} (--help tells more, VERB --help of one)\n`,
      );
      return 2;
    }
    const stray = strayOption(verb, values);
    if (stray) {
      process.stderr.write(`elbowroom: option "--${stray}" is not one of ${name}; --help lists the options\n`);
      return 2;
    }
    const { output, status } = await verb.run(paths, values);
    process.stdout.write(terminalText(output));
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
    const fault = faultText(error);
    process.stderr.write(`elbowroom: ${fault.text}\n`);
    return fault.status;
  }
}

/** A disk that refuses is the reader's to mend; anything else is a fault of the program, told without its inner workings. */
function faultText(error: unknown): { text: string; status: number } {
  if (error instanceof Error && "syscall" in error && "code" in error) {
    const { path = "" } = error as NodeJS.ErrnoException;
    const where = path ? `${shownText(path, 300)}: ` : "";
    return {
      text: `${where}cannot be written (${String(error.code)}); wanted: a file in a folder that is there`,
      status: 2,
    };
  }
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return {
    text: `the program itself failed (${shownText(what, 200)}); wanted: the same file in a report of the fault`,
    status: 3,
  };
}

function isVerb(name: string | undefined): name is string {
  return name !== undefined && Object.hasOwn(VERBS, name);
}

/** An option that the verb does not take. */
function strayOption(verb: Verb, values: VerbOptions): string | undefined {
  const taken: readonly string[] = ["json", "help", ...verb.options];
  return Object.keys(values).find((option) => !taken.includes(option));
}
