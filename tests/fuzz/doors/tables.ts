import fc from "fast-check";
import { pointsTable, withPointsTable } from "../../../src/fabrication/exchange/pointsTable.ts";
import { resolveScene } from "../../../src/scene/resolve.ts";
import { mergeRooms } from "../../../src/studies/room/room.ts";
import { readRoom } from "../../../src/studies/room/told.ts";
import { sceneFile } from "../../scenes/files.ts";
import { type Door, type Handed, holds } from "../door.ts";
import { spoilt, utf8 } from "../grammar/bytes.ts";
import { spoiltTree } from "../grammar/tree.ts";

const text = (content: Handed["content"]) =>
  typeof content === "string" ? content : new TextDecoder().decode(content);

const { document, scene } = sceneFile("1-");
const datum = scene.datums[0] ?? null;
const TABLE = pointsTable(document, datum);
const cell = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.constantFrom(...Object.keys(document.points), "point", "forward_mm", "out_mm", "up_mm", "nowhere"),
  },
  {
    weight: 4,
    arbitrary: fc.constantFrom(
      "1",
      "9 7/16in",
      '"',
      '""',
      "1,5",
      "-",
      "=cmd|' /C calc'!A0",
      "1e5",
      "",
      "\u001b[2J",
      "__proto__",
      "<b>",
    ),
  },
  { weight: 1, arbitrary: fc.string() },
);
const tables = fc.oneof(
  {
    weight: 3,
    arbitrary: spoilt(
      [utf8(TABLE)],
      [",", '"', "\n", "\r", ";", "\t", "point,", "__proto__,", "9 7/16in", "=1+1", "\0"],
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(
        fc.constantFrom(
          "point,forward_mm,out_mm,up_mm",
          "point;forward_mm;out_mm;up_mm",
          "point,forward_mm,out_mm,up_mm,__proto__,constructor",
          "up_mm,up_mm,point",
          "",
        ),
        fc.array(fc.array(cell, { maxLength: 7 }), { maxLength: 12 }),
        fc.constantFrom(",", ";", "\t"),
      )
      .map(([head, rows, between]) => utf8([head, ...rows.map((row) => row.join(between))].join("\n"))),
  },
);

async function openTable({ content }: Handed): Promise<void> {
  const changed = withPointsTable(document, text(content), datum);
  const names = Object.keys(document.points);
  holds(Object.keys(changed.points).join("\n") === names.join("\n"), "the same points");
  for (const place of Object.values(resolveScene(changed, "scene.json").points)) {
    holds(JSON.stringify(place).includes("null") === false, "finite places");
  }
}

const ROOM = {
  study: "room",
  scene: "a.json",
  points: ["upper.in"],
  fit: "cut",
  region: { spans: [{ along: [0, 0, 1], from_mm: -10, to_mm: 10 }], step_mm: 10 },
  first: [-1, 0, 0],
  counts: [3, 1, 1],
  marginUpTo_mm: 20,
  states: [{ travel_mm: 0, pose: "rest" }],
  reasons: [
    { kind: "clearance", side: "left", a: "upper", b: "sump", required_mm: 10 },
    { kind: "limit", side: "both", what: "toe" },
    { kind: "reach" },
  ],
  reason: [-1, 0, 1],
  margin_mm: [3, -1, null],
  pair: [0, 0, -1],
  state: [0, 0, -1],
  value: [null, null, 0.5],
  summary: { free: 1, refused: 2, unasked: 0 },
};
const rooms = fc.oneof(
  { weight: 3, arbitrary: spoiltTree<unknown>([ROOM]).map((room) => utf8(JSON.stringify(room) ?? "")) },
  {
    weight: 1,
    arbitrary: spoilt(
      [utf8(JSON.stringify(ROOM))],
      ["[", "]", "{", "}", "1e999", "-3", "null,", '"study":"room",', "1e9"],
    ),
  },
);

async function openRoom({ file, content }: Handed): Promise<void> {
  const { map } = readRoom(text(content), file);
  mergeRooms([map]);
}

export const TABLE_DOORS: readonly Door[] = [
  {
    name: "points",
    share: 80,
    ending: "csv",
    cases: tables.map((content) => ({ file: "points.csv", content })),
    open: openTable,
  },
  {
    name: "room",
    share: 30,
    ending: "json",
    cases: rooms.map((content) => ({ file: "shard.json", content })),
    open: openRoom,
  },
];
