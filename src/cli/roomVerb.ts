import { isClashing } from "../check/check.ts";
import { length, type Vec3 } from "../maths/vec3.ts";
import { InputError } from "../scene/error.ts";
import { fullCheck } from "../studies/fullCheck.ts";
import { type Fit, MovedPoints } from "../studies/places/move.ts";
import type { PlaceLimits } from "../studies/places/placeLimits.ts";
import type { PlaceReason } from "../studies/places/placeStudy.ts";
import { type Change, type MovePrice, priceOf } from "../studies/price.ts";
import { PlaceGrid, type Region, type Span } from "../studies/room/region.ts";
import { FREE, mapRoom, mergeRooms, type RoomMap } from "../studies/room/room.ts";
import { LARGEST_ROOM_BYTES, readRoom, summaryOf, toldRoom } from "../studies/room/told.ts";
import { tellCheck } from "./checkVerb.ts";
import { type LoadedScene, loadScene } from "./loadScene.ts";
import { withTravel } from "./narrow.ts";
import { namedOf, numberOf, rangeOf, shareOf, tripleOf } from "./numbers.ts";
import { readInput, textOf } from "./readInput.ts";
import type { OptionName, VerbOptions, VerbOutcome } from "./verb.ts";

export const ROOM_OPTIONS: readonly OptionName[] = [
  "travel",
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
  "half-track-change",
  "damper-ratio",
  "length",
  "leave-out",
  "shard",
  "place",
];

/** Margins of this and more are not told apart, mm. */
const MARGIN_UP_TO_MM = 10;
const CAUTION = "Geometry only, rigid parts: prove it by hand with the spring out, on stands.";

/** `room`: where hard points may live, as sentences or as JSON; with --place the full check of one place. */
export async function runRoom(path: string, options: VerbOptions): Promise<VerbOutcome> {
  const loaded = await loadScene(path);
  const document = withTravel(loaded.document, options.travel);
  try {
    const points = pointsOf(options);
    const fit = fitOf(options);
    if (options.place !== undefined) {
      return placeOutcome({ ...loaded, document }, new MovedPoints(document, points, fit), options);
    }
    const map = mapRoom(
      {
        document,
        meshFiles: loaded.meshFiles,
        points,
        fit,
        limits: limitsOf(options),
        leaveOut: options["leave-out"] ?? [],
        travelStep_mm: numberOf("travel-step", options["travel-step"], 10, 0.1),
        marginUpTo_mm: MARGIN_UP_TO_MM,
        region: regionOf(options),
      },
      undefined,
      undefined,
      shareOf(options.shard),
    );
    return outcomeOf(map, loaded.name, options);
  } catch (error) {
    throw error instanceof InputError ? error.in(path) : error;
  }
}

/** `merge`: shards of a room map as one. */
export async function runMerge(paths: readonly string[], options: VerbOptions): Promise<VerbOutcome> {
  const shards = await Promise.all(
    paths.map(async (path) => {
      const bytes = await readInput(path, LARGEST_ROOM_BYTES, {
        code: "unreadable",
        file: path,
        wanted: "a shard of a room map, as room --json printed it",
      });
      return readRoom(textOf(bytes), path);
    }),
  );
  return outcomeOf(mergeRooms(shards.map(({ map }) => map)), shards[0]!.scene, options);
}

function outcomeOf(map: RoomMap, scene: string, options: VerbOptions): VerbOutcome {
  return {
    output: options.json ? `${JSON.stringify(toldRoom(map, scene))}\n` : tellRoom(map, scene),
    status: map.reason.includes(FREE) ? 0 : 1,
  };
}

export function pointsOf({ point = [] }: VerbOptions): readonly string[] {
  if (point.length > 0) return point;
  throw new InputError("wrong-value", { path: "--point" }, "no hard point is named", "--point NAME");
}

export function fitOf({ fit = "cut" }: VerbOptions): Fit {
  if (fit === "cut" || fit === "bolted") return fit;
  throw new InputError("wrong-value", { path: "--fit" }, `"${fit}" is no way to fit parts`, "cut or bolted");
}

function regionOf(options: VerbOptions): Region {
  const step_mm = numberOf("step", options.step, 5, 0.01);
  const span = (option: string, along: Vec3, text: string): Span => {
    const [from_mm, to_mm] = rangeOf(option, text);
    return { along, from_mm, to_mm };
  };
  const spans: Span[] = [];
  if (options.line !== undefined) {
    const [direction, range] = namedOf("line", options.line);
    spans.push(span("line", tripleOf("line", direction), range));
  }
  if (options.forward !== undefined) spans.push(span("forward", [1, 0, 0], options.forward));
  if (options.out !== undefined) spans.push(span("out", [0, 1, 0], options.out));
  if (options.up !== undefined) spans.push(span("up", [0, 0, 1], options.up));
  if (spans.length > 0) return { spans, step_mm };
  throw new InputError("wrong-value", { path: "--out" }, "no room to look at is given", "--out FROM:TO, or others");
}

export function limitsOf(options: VerbOptions): PlaceLimits {
  const { camber, length: lengths } = options;
  const toeChange = options["toe-change"];
  const trackChange = options["half-track-change"];
  const ratio = options["damper-ratio"];
  return {
    ...(toeChange === undefined ? {} : { toeChange_deg: numberOf("toe-change", toeChange, 0, 0) }),
    ...(camber === undefined ? {} : { camber_deg: rangeOf("camber", camber) }),
    ...(trackChange === undefined ? {} : { halfTrackChange_mm: numberOf("half-track-change", trackChange, 0, 0) }),
    ...(ratio === undefined ? {} : { damperRatio: rangeOf("damper-ratio", ratio) }),
    ...(lengths === undefined
      ? {}
      : {
          memberLength_mm: Object.fromEntries(
            lengths.map((text) => {
              const [id, range] = namedOf("length", text);
              return [id, rangeOf("length", range)];
            }),
          ),
        }),
  };
}

function tellRoom(map: RoomMap, scene: string): string {
  const { free, refused, unasked } = summaryOf(map);
  const grid = new PlaceGrid(map.region);
  const lines = [
    `${scene}: ${map.points.join(" and ")}, ${map.fit === "cut" ? "cut to suit" : "bolted up"}: ${free} of ${free + refused} places are free${unasked > 0 ? `, ${unasked} belong to other shards` : ""}`,
  ];
  const places = [...map.reason.keys()].filter((place) => map.reason[place] === FREE);
  const way = (place: number) => length(grid.offsetOf(place));
  const nearest = places.reduce((best, place) => (best < 0 || way(place) < way(best) ? place : best), -1);
  const roomiest = places.reduce((best, place) => {
    if (best < 0) return place;
    const more = map.margin_mm[place]! - map.margin_mm[best]!;
    return more > 0 || (more === 0 && way(place) < way(best)) ? place : best;
  }, -1);
  if (nearest >= 0) lines.push(`nearest   ${tellPlace(map, grid, nearest)}`);
  if (roomiest >= 0) lines.push(`roomiest  ${tellPlace(map, grid, roomiest)}`);
  const counts = new Map<string, number>();
  for (const reason of map.reason) {
    if (reason < 0) continue;
    const told = tellReason(map.reasons[reason]!);
    counts.set(told, (counts.get(told) ?? 0) + 1);
  }
  for (const [told, count] of [...counts].sort((a, b) => b[1] - a[1])) lines.push(`refused   ${count} by ${told}`);
  lines.push("Asked at some travels only: check a place in full (--place) before it is taken.", CAUTION);
  return `${lines.join("\n")}\n`;
}

function tellPlace(map: RoomMap, grid: PlaceGrid, place: number): string {
  const margin = map.margin_mm[place]!;
  const left = margin >= map.marginUpTo_mm ? `${map.marginUpTo_mm} mm or more` : `${margin.toFixed(1)} mm`;
  const pair = map.reasons[map.pair[place]!];
  return `${tellOffset(grid.offsetOf(place))}: ${left} beyond what is wanted${pair ? `, least between ${tellReason(pair)}` : ""}`;
}

export function tellOffset([x, y, z]: Vec3): string {
  const part = (value: number, more: string, less: string) =>
    Math.abs(value) < 0.005 ? null : `${Math.abs(value).toFixed(1)} mm ${value > 0 ? more : less}`;
  const parts = [part(x, "forward", "back"), part(y, "out", "in"), part(z, "up", "down")].filter((each) => each);
  return parts.length > 0 ? parts.join(", ") : "where it is";
}

export function tellReason(reason: PlaceReason): string {
  switch (reason.kind) {
    case "drawn":
      return "a part that cannot be made so";
    case "reach":
      return "parts that do not reach";
    case "binds":
      return "binding within the travel";
    case "limit":
      return reason.side === "both" ? reason.what : `${reason.side} ${reason.what}`;
    case "clearance":
      return `${reason.side === "both" ? "" : `${reason.side} `}${reason.a} / ${reason.b}`;
  }
}

function placeOutcome(loaded: LoadedScene, moved: MovedPoints, options: VerbOptions): VerbOutcome {
  const by = tripleOf("place", options.place!);
  const { name, meshFiles } = loaded;
  const offsets = moved.points.map(() => by);
  const before = fullCheck(loaded.document, meshFiles, name);
  const after = fullCheck(moved.at(offsets), meshFiles, name);
  const price = priceOf(before, after);
  const status = isClashing(after) ? 1 : 0;
  if (options.json) {
    const { pairs, ...rest } = after;
    const told = pairs.map(({ side, a, b, required_mm, clearance_mm, verdict, at }) => {
      const old = before.pairs.find((pair) => pair.side === side && pair.a === a && pair.b === b);
      return { side, a, b, required_mm, clearance_mm, before_mm: old?.clearance_mm ?? null, verdict, at };
    });
    return {
      output: `${JSON.stringify({ study: "place", moves: moved.moves(offsets), price, ...rest, pairs: told })}\n`,
      status,
    };
  }
  const lines = [
    `${moved.points.join(" and ")} ${tellOffset(by)}, ${moved.fit === "cut" ? "cut to suit" : "bolted up"}`,
    `costs at most ${tellPrice(price)}`,
  ];
  return { output: `${lines.join("\n")}\n${tellCheck(after)}`, status };
}

/** The changes of the wheel's readings and of the driveshaft. */
export function tellPrice({ toe_deg, camber_deg, halfTrack_mm, shaft_mm }: MovePrice): string {
  const part = (what: string, { by, travel_mm }: Change, digits: number, unit: string) =>
    `${what} ${signed(by, digits)}${unit} at ${travel_mm} mm`;
  const parts = [
    part("toe", toe_deg, 2, "°"),
    part("camber", camber_deg, 2, "°"),
    part("half track", halfTrack_mm, 1, " mm"),
    ...(shaft_mm ? [part("shaft", shaft_mm, 1, " mm")] : []),
  ];
  return parts.join(", ");
}

export function signed(value: number, digits: number): string {
  return `${value < 0 ? "−" : "+"}${Math.abs(value).toFixed(digits)}`;
}
