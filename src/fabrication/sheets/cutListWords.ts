import type { DrawnBar } from "./bars.ts";
import type { Count } from "./counts.ts";
import type { CutFault } from "./cutList.ts";

/** What the cut list says beside numbers and names, in the language of the sheet. Lengths come with their unit. */
export interface CutListWords {
  readonly tubes: string;
  readonly number: string;
  readonly part: string;
  readonly count: string;
  readonly size: string;
  readonly eyeToEye: string;
  readonly cut: string;
  readonly saw: string;
  readonly mass: string;
  readonly ends: string;
  readonly what: Readonly<Record<DrawnBar["what"], (part: string) => string>>;
  readonly sizeUnknown: string;
  readonly wallUnknown: (size: string) => string;
  readonly notTold: string;
  /** The joint, or the other part, and the numbers that go with it. */
  readonly end: {
    readonly rodEnd: (joint: string, thread: string, engaged: string, reach: string) => string;
    readonly sleeve: (joint: string, angle: string, short: string) => string;
    readonly coped: (part: string, angle: string, short: string) => string;
    readonly mitred: (angle: string) => string;
    readonly square: string;
    readonly squareShort: (joint: string, short: string) => string;
    readonly unknown: (joint: string) => string;
  };
  readonly mitre: (length: string) => string;
  readonly adjust: (longer: string, shorter: string) => string;
  readonly bends: (count: number, radius: string, angles: string) => string;
  readonly stock: string;
  readonly material: string;
  readonly pieces: string;
  readonly together: string;
  readonly bars: (length: string) => string;
  readonly barCount: (bars: number, tooLong: number) => string;
  readonly parts: string;
  readonly counted: Readonly<Record<Count["what"], string>>;
  readonly at: string;
  /** A joint or a part, as the list calls it. */
  readonly place: (name: string) => string;
  readonly missing: string;
  readonly fault: Readonly<Record<CutFault["code"], (name: string) => string>>;
  readonly total: (mass: string) => string;
  readonly notes: (saw: string, trim: string) => readonly string[];
}

export const CUT_ENGLISH: CutListWords = {
  tubes: "Tubes and sections",
  number: "No.",
  part: "Part",
  count: "Pieces",
  size: "Size, material",
  eyeToEye: "Eye to eye",
  cut: "Cut length",
  saw: "Saw off",
  mass: "Each, kg",
  ends: "Ends and adjustment",
  what: {
    link: (part) => part,
    "front leg": (part) => `${part}, front leg`,
    "rear leg": (part) => `${part}, rear leg`,
    "drop link": () => "anti-roll bar, drop link",
    frame: (part) => part,
  },
  sizeUnknown: "size not told",
  wallUnknown: (size) => `${size}, wall not told`,
  notTold: "not told",
  end: {
    rodEnd: (joint, thread, engaged, reach) =>
      `${joint}: rod end ${thread}, ${engaged} of thread in, eye ${reach} from the tube`,
    sleeve: (joint, angle, short) => `${joint}: coped to its sleeve at ${angle}, ${short} short of the centre`,
    coped: (part, angle, short) => `coped to ${part} at ${angle}, ${short} short of its axis`,
    mitred: (angle) => `mitred by ${angle}`,
    square: "square, as drawn",
    squareShort: (joint, short) => `${joint}: square, ${short} short of the centre`,
    unknown: (joint) => `${joint}: how it ends is not told`,
  },
  mitre: (length) => `${length} of it goes in copes and mitres`,
  adjust: (longer, shorter) => `thread left: ${longer} longer, ${shorter} shorter`,
  bends: (count, radius, angles) => `${count} × bent on ${radius} radius: ${angles}`,
  stock: "What to buy",
  material: "Material",
  pieces: "Pieces",
  together: "All, with saw cuts",
  bars: (length) => `Bars of ${length}`,
  barCount: (bars, tooLong) => (tooLong > 0 ? `${bars}; ${tooLong} longer than a bar` : String(bars)),
  parts: "Bolts, rod ends, plates",
  counted: {
    bolt: "bolt",
    "rod end": "rod end",
    "ball joint": "ball joint",
    bush: "bush",
    "lock nut": "lock nut",
    adapter: "threaded adapter",
    sleeve: "sleeve or housing",
    plate: "plate",
  },
  at: "Where",
  place: (name) => name,
  missing: "What is not told or does not work out",
  fault: {
    end: (joint) => `${joint}: how does the tube end there? Without it there is no cut length.`,
    "thread-short": (joint) =>
      `${joint}: adapter and shank have no room for 1.5 diameters of thread and a lock nut. Choose a longer one.`,
    "thread-set": (joint) => `${joint}: the thread is set where too little is in, or the lock nut finds no room.`,
    size: (part) => `${part}: no size of its tube.`,
    "no-tube": (part) => `${part}: is drawn as something else than tube, so it is not on the list.`,
    "no-room": (part) => `${part}: its ends leave no tube between them.`,
  },
  total: (mass) => `All pieces whose mass is known: ${mass} kg.`,
  notes: (saw, trim) => [
    `Cut length is from longest side to longest side, before copes and mitres are cut; saw off is that and ${trim} at each end for dressing. Every piece takes ${saw} of saw cut beside.`,
    "At least 1.5 diameters of thread must be in (common practice, no source), and cover the witness hole; lock every thread with its nut.",
    "Ends against boxes, plates and what is not drawn are square as drawn: measure on the car before cutting.",
  ],
};
