import fc from "fast-check";
import { writeLog } from "../../../src/buildlog/logfile.ts";
import { OPTIONS, type OptionName } from "../../../src/cli/verb.ts";
import { drawnPng } from "../../buildlog/drawnPng.ts";
import { card } from "../../buildlog/fixture.ts";
import { decision, view } from "../../buildlog/logs.ts";
import type { Door, Handed } from "../door.ts";
import { hostileCars, SMALL_CARS } from "../grammar/cars.ts";
import { hostileName, hostileText } from "../grammar/markup.ts";
import { judge, type Typed, typed } from "../terminal.ts";
import { holdsFile } from "../written.ts";

const VIEWS = ["rear", "front", "left", "right", "plan", "below", "corner"];
const ISO_DATE = ["--date", "2026-11-13"];

/** Whatever writes files, by the names of a car. */
const exported: fc.Arbitrary<Typed> = fc
  .tuple(hostileCars, hostileText, fc.constantFrom(...VIEWS), fc.nat(15), fc.nat({ max: 3 }))
  .map(([{ scene, names }, text, view, kind, pick]): Typed => {
    const n = (name: string) => names.get(name)!;
    const told = ["--revision", `x${text}`, ...ISO_DATE];
    const note = ["--note", `x${text}`];
    const part = `--part=${n(pick > 1 ? "tray" : "ear")}`;
    const size = ["--size", ["320x320", "400x320", "320x500", "300x400"][pick]!];
    const ways: readonly (readonly string[])[] = [
      ["picture", "--to", "@/made/x.svg", "--view", view, ...size, ...told, ...note, "--gap", "all"],
      ["picture", "--to", "@/made/x.svg", "--view", view, ...size, `--around=${n("ear")}`, `--outline=${n("tray")}`],
      ["picture", "--to", "@/made/x.svg", ...size, "--gap", "worst", `--dimension=${n("upper.in")}/${n("upper.ear")}`],
      ["picture", "--to", "@/made/x.png", "--view", view, ...size, ...told, ...note, "--units", "in"],
      ["template", "--to", "@/made/x.svg", part],
      ["template", "--to", "@/made/x.dxf", part],
      ["template", "--to", "@/made/x.pdf", part, ...told],
      ["template", "--to", "@/made/all/", "--json", part, ...told],
      ["pointsheet", "--to", "@/made/x.pdf", ...told],
      ["pointsheet", "--to", "@/made/x.csv", `--datum=${n("rail")}`],
      ["jigsheet", "--to", "@/made/x.pdf", ...told, "--units", "in"],
      ["cutlist", "--to", "@/made/x.pdf", ...told],
      ["cutlist", "--to", "@/made/x.csv"],
      ["export", "--to", pick % 2 ? "@/made/x.glb" : "@/made/x.obj"],
      ["export", "--to", "@/made/all/", "--json"],
      ["points", "--json"],
    ];
    const [verb, ...rest] = ways[kind]!;
    return { args: [verb!, "@/car.json", ...rest], files: { "car.json": scene } };
  });

/** A log whose texts are such, made into every kind of report. */
const reported: fc.Arbitrary<Typed> = fc
  .tuple(fc.array(hostileText, { minLength: 7, maxLength: 7 }), fc.constantFrom("html", "pdf", "zip", "json", "md"))
  .map(([texts, ending]): Typed => {
    const [title, note, revision, fileName, owner, why, name] = texts;
    const picture = { png: drawnPng(8, 6, [9, 90, 9]), width: 8, height: 6 };
    const log = writeLog({
      cards: [card({ number: 1, title, note, revision, fileName, picture, views: [view({ name: name!, picture })] })],
      decisions: [decision({ owner: owner!, why: why! })],
    });
    return { args: ["report", "@/log.json", "--to", `@/made/x.${ending}`], files: { "log.json": log } };
  });

/** What is typed as a value: fitting for one option or another, or for none. Small where it says how much work is asked for. */
const value = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      ...[
        "0",
        "1",
        "5",
        "-5",
        "10",
        "20",
        "0.1",
        "-20:20:10",
        "0:10:5",
        "-10:10",
        "-3:3",
        "10:-10",
        "1:1",
        "0,0,0",
        "1,0,0",
      ],
      ...["-300,300,500", "0,0,1=20", "1,0,0=-10:10", "1/2", "2/1", "1:5", "1:0", "300x200", "1x1", "4097x4097", "0x0"],
      ...[
        "a4",
        "letter",
        "mm",
        "in",
        "left",
        "right",
        "rear",
        "plan",
        "corner",
        "worst",
        "all",
        "none",
        "cut",
        "bolted",
      ],
      ...["2026-11-13", "damper-length", "13x40"],
    ),
  },
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      ...[
        "upper.in",
        "upper.ear",
        "arm.front",
        "upper.out",
        "rail",
        "bulkhead",
        "upper",
        "lower",
        "ear",
        "tray",
        "sump",
      ],
      ...[
        "drive",
        "overrun",
        "pulling",
        "rest",
        "carrier",
        "ear/upper",
        "tyre/tray",
        "gearbox-mount-ear/upper",
        "ear@left",
      ],
      ...[
        "upper.in=1",
        "lower=-5:5",
        "upper.in=out:-3:3:1",
        "upper=-5:5:1",
        "upper.in/upper.ear",
        "upper.in@right/0,0,0=up",
      ],
    ),
  },
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      ...[
        "",
        " ",
        "-",
        "--",
        "NaN",
        "1e9",
        "1e-9",
        "1e999",
        "-1e9",
        "0x10",
        "1e9x1e9",
        "99999x1",
        "-1e9:1e9:1e-9",
        "1,2",
      ],
      ...["=", "a=", "=b", "a=b=c", "/", "@", "x/y/z", "1/1000000000", "__proto__", "constructor", "../x", "\u001b[2J"],
    ),
  },
  { weight: 1, arbitrary: hostileName },
);
const file = fc.constantFrom(
  ...["@/made/x.svg", "@/made/x.png", "@/made/x.pdf", "@/made/x.dxf", "@/made/x.csv", "@/made/x.glb", "@/made/x.obj"],
  ...["@/made/x.stl", "@/made/all/", "@/made/x.html", "@/made/x.zip", "@/made/x.md", "@/made/x.json", "@/made/x.exe"],
  ...["@/made", "@/nowhere/x.svg", "@/made/", "@/car.json/x.pdf"],
);
const VERBS: Readonly<Record<string, readonly OptionName[]>> = {
  check: ["travel", "pose"],
  curves: ["travel", "pose", "roll"],
  shaft: ["travel", "spare"],
  spring: ["travel"],
  joints: ["travel"],
  loads: ["travel", "pose"],
  room: [
    "point",
    "fit",
    "forward",
    "out",
    "up",
    "line",
    "step",
    "travel-step",
    "toe-change",
    "camber",
    "length",
    "place",
  ],
  moves: ["pair", "leave-out"],
  jig: ["toe-within", "camber-within", "accuracy", "tolerance", "seed", "mount", "toe", "camber"],
  asbuilt: ["toe-within", "camber-within", "slot", "shim", "adjuster", "pull"],
  service: ["job", "on", "place", "facing", "socket", "part", "straight", "without"],
  together: ["travel"],
  points: ["datum", "from"],
  export: ["to", "at", "pose", "part"],
  template: ["to", "part", "fold", "k-factor", "bend-radius", "paper", "measured", "bare", "revision"],
  picture: [
    "to",
    "view",
    "at",
    "side",
    "scale",
    "paper",
    "portrait",
    "size",
    "dpi",
    "dimension",
    "gap",
    "outline",
    "around",
  ],
  report: ["to", "card", "paper", "units"],
  pointsheet: ["to", "datum", "built", "paper", "units"],
  jigsheet: ["to", "datum", "table", "bar", "paper"],
  cutlist: ["to", "saw", "trim", "stock"],
  merge: [],
};
const LOG = writeLog({ cards: [card({ number: 1 })], decisions: [] });

const option = (name: OptionName): fc.Arbitrary<string[]> =>
  OPTIONS[name].type === "boolean"
    ? fc.constant([`--${name}`])
    : (name === "to" ? file : value).chain((given) => fc.constantFrom([`--${name}=${given}`], [`--${name}`, given]));
const anyOption = fc.constantFrom(
  ...(Object.keys(OPTIONS) as OptionName[]).filter((name) => name !== "help" && name !== "to"),
);
/** What a verb needs to do anything, and what keeps it from searching for long. */
const FIRST: Readonly<Record<string, fc.Arbitrary<string[]>>> = {
  picture: option("to"),
  export: option("to"),
  jig: fc.constant(["--samples=5"]),
  // a search over more than this is work that was asked for, and takes its seconds
  moves: fc.constant(["--pair=lower/toe", "--point=toe.in", "--within=1", "--fit=cut"]),
  room: fc.constantFrom("upper.in", "toe.in").map((point) => [`--point=${point}`, "--step=10", "--forward=-10:10"]),
};
/** A few of a verb's own options, seldom one of another or none that there is. */
const asked: fc.Arbitrary<Typed> = fc
  .constantFrom(...Object.keys(VERBS).flatMap((verb) => (verb === "moves" ? [verb] : [verb, verb, verb])))
  .chain((verb) => {
    const own = VERBS[verb]!;
    const one = fc.oneof(
      { weight: own.length > 0 ? 30 : 0, arbitrary: fc.constantFrom<OptionName>(...own, "json") },
      { weight: 1, arbitrary: anyOption },
    );
    const options = fc.array(one.chain(option), { maxLength: 4 });
    const odd = fc.oneof(
      { weight: 30, arbitrary: fc.constant<string[]>([]) },
      {
        weight: 1,
        arbitrary: fc.constantFrom(["--help"], ["--nothing"], ["-x"], ["--json=1"], ["more"], ["--"], ["--to"]),
      },
    );
    const first = FIRST[verb] ?? fc.constant<string[]>([]);
    const path = fc.oneof(
      { weight: 20, arbitrary: fc.constant(verb === "report" ? "@/log.json" : "@/car.json") },
      file,
    );
    return fc.tuple(fc.constantFrom(...SMALL_CARS), path, first, options, odd).map(
      ([car, of, to, some, stray]): Typed => ({
        args: [verb, of, ...to, ...some.flat(), ...stray],
        files: { "car.json": car, "log.json": LOG },
      }),
    );
  });

async function openTerminal({ content }: Handed): Promise<void> {
  const said: Typed = JSON.parse(typeof content === "string" ? content : new TextDecoder().decode(content));
  const answer = await typed(said);
  const isJson = said.args.includes("--json") && !said.args.includes("--help") && said.args[0] !== "curves";
  judge(answer, isJson);
  for (const [name, bytes] of answer.written) await holdsFile(name, bytes);
}

const door = (name: string, share: number, cases: fc.Arbitrary<Typed>): Door => ({
  name,
  share,
  ending: "json",
  cases: cases.map((each) => ({ file: "typed.json", content: JSON.stringify(each) })),
  open: openTerminal,
});

export const TERMINAL_DOORS: readonly Door[] = [
  door("exports", 10, exported),
  door("reports", 6, reported),
  door("terminal", 10, asked),
];
