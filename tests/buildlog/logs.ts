import type { ClashDecision } from "../../src/buildlog/decision.ts";
import { pairKey } from "../../src/buildlog/decision.ts";
import type { CardPhoto, CardView } from "../../src/buildlog/entry.ts";
import type { BuildLog } from "../../src/buildlog/logfile.ts";
import { card, PNG, POINTS, pair, result } from "./fixture.ts";

/** Bytes that begin as their kind of picture must, and then are all that bytes can be. */
export function picture(signature: readonly number[], seed: number, length = 1000): Uint8Array {
  const bytes = new Uint8Array(length).map((_, index) => (index * 31 + seed * 7) % 256);
  bytes.set(signature);
  return bytes;
}

const JPEG = [0xff, 0xd8, 0xff];
const WEBP = [0x52, 0x49, 0x46, 0x46, 0, 0, 0, 0, 0x57, 0x45, 0x42, 0x50];

/** What somebody might type, or mean to. */
export const NASTY = [
  "</script><script>document.title='ran'</script>",
  '"><img src=x onerror="document.title=1">',
  "<svg onload=alert(1)>",
  "javascript:alert(1) [x](javascript:alert(1)) ![y](data:text/html,hi)",
  "*strong* _em_ `code` | a | b |\n# head\n> quote\n1. one\n- two\n---\n~~no~~ &lt; &#60; \\",
  "line\r\nanother\r\n\r\nand a last one",
  "\u0000\u0007\ud800 lone, \u2028 separator, Ünïcödé, 日本, 🔧",
  "'\"--><!--]]>",
] as const;

export function view(over: Partial<CardView> = {}): CardView {
  return {
    name: "",
    state: "bump",
    travel_mm: { left: 80, right: 80 },
    pose: "overrun",
    picture: { png: picture([...PNG], 3), width: 40, height: 30 },
    ...over,
  };
}

export function photo(over: Partial<CardPhoto> = {}): CardPhoto {
  return {
    name: "IMG_0042.JPG",
    caption: "Bracket tacked",
    type: "image/jpeg",
    bytes: picture(JPEG, 5),
    width: 40,
    height: 30,
    ...over,
  };
}

export function decision(over: Partial<ClashDecision> = {}): ClashDecision {
  return {
    id: "d1",
    scene: "Wren rear end",
    key: pairKey(pair()),
    state: "open",
    owner: "Kim",
    why: "",
    made: "2026-11-13T08:00:00.000Z",
    ...over,
  };
}

/** Three cards with all that a card can hold, one written by somebody who means harm, and what was decided. */
export function fullLog(): BuildLog {
  const moved = { ...POINTS, "upper.in": [130, 392, 446] as const };
  return {
    cards: [
      card({ number: 12, revision: "A", views: [view(), view({ state: "droop", name: "Hanging", share: 0.5 })] }),
      card({
        number: 13,
        title: NASTY[0],
        note: NASTY.join("\n"),
        revision: NASTY[1],
        fileName: NASTY[2],
        photos: [
          photo({ name: `${NASTY[1]}.jpg`, caption: NASTY[4] }),
          photo({ name: "../../etc/passwd", type: "image/webp", bytes: picture(WEBP, 9) }),
          photo({ name: "../../etc/passwd", type: "image/png", bytes: picture([...PNG], 11) }),
        ],
        views: [view({ name: NASTY[3] })],
        made: new Date("2026-11-14T07:30:00Z"),
      }),
      card({
        number: 14,
        picture: null,
        points: { ...moved },
        made: new Date("2026-11-15T07:30:00Z"),
        result: result({ pairs: [pair({ clearance_mm: 12, verdict: "clear", clashTravel_mm: [] })] }),
      }),
    ],
    decisions: [decision(), decision({ id: "d2", state: "accepted", why: NASTY[0], owner: NASTY[1], key: "other" })],
  };
}
