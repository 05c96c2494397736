import { add, dot, length, normalise, scale, subtract, type Vec3 } from "../../../maths/vec3.ts";
import type { Tape, TapeFix } from "../../../scene/tape.ts";
import { listText } from "../../text/formats.ts";
import { t } from "../../text/text.ts";

interface TapeSketchProps {
  readonly fix: TapeFix;
  readonly tapes: readonly Tape[];
  readonly chosen: number;
  /** Of each place: "above the studs". */
  readonly sides: readonly string[];
  readonly suspect: number | null;
}

const WIDTH = 360;
const HEIGHT = 210;
const MARGIN = 30;

/** The studs' plane edge on, with the place on either side of it and the tapes that lead there. */
export function TapeSketch({ fix, tapes, chosen, sides, suspect }: TapeSketchProps) {
  const flat = flatten(fix, tapes);
  const spots = [...flat.studs, ...flat.places];
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys, 0), Math.max(...ys, 0)];
  const perMm = Math.min(
    (WIDTH - 2 * MARGIN) / Math.max(right - left, 1),
    (HEIGHT - 2 * MARGIN) / Math.max(high - low, 1),
  );
  const at = ([x, y]: Flat): Flat => [
    WIDTH / 2 + (x - (left + right) / 2) * perMm,
    HEIGHT / 2 - (y - (low + high) / 2) * perMm,
  ];
  const plane_y = at([0, 0])[1];
  const places = fix.places.map((_, i) => t(`points.tape.${i === chosen ? "chosen" : "other"}`, { side: sides[i]! }));
  return (
    <svg
      className="tape-sketch"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={t("points.tape.sketch", { places: listText(places, "unit") })}
    >
      <path className="plane" d={`M8 ${plane_y}H${WIDTH - 8}`} />
      {flat.places.map((place, i) =>
        flat.studs.map((stud, j) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: places and studs have nothing else
            key={`${i}/${j}`}
            className="tape"
            data-chosen={i === chosen}
            data-suspect={j === suspect && i === chosen}
            d={`M${at(stud).join(" ")}L${at(place).join(" ")}`}
          />
        )),
      )}
      {flat.studs.map((stud, j) => {
        const [x, y] = at(stud);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: studs have nothing else
          <g key={j} className="stud">
            <path d={`M${x - 5} ${y - 5}l10 10m0-10l-10 10`} />
            <text x={x} y={y + 20} textAnchor="middle">
              {j + 1}
            </text>
          </g>
        );
      })}
      {flat.places.map((place, i) => {
        const [x, y] = at(place);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: places have nothing else
          <g key={i} className="place" data-chosen={i === chosen}>
            <circle cx={x} cy={y} r={i === chosen ? 8 : 6} />
            <text x={x > WIDTH / 2 ? x - 14 : x + 14} y={y + 4} textAnchor={x > WIDTH / 2 ? "end" : "start"}>
              {sides[i]}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

type Flat = readonly [across: number, off: number];

/** Seen along the studs' plane, square to the way from their middle to the place's foot. */
function flatten({ places, middle, normal }: TapeFix, tapes: readonly Tape[]): { studs: Flat[]; places: Flat[] } {
  const [first] = places;
  const foot = subtract(first!.at, scale(normal, first!.height_mm));
  const way = subtract(foot, middle);
  const spread = tapes.map(({ stud }) => subtract(stud, middle)).sort((a, b) => length(b) - length(a))[0]!;
  const inPlane = (v: Vec3): Vec3 => add(v, scale(normal, -dot(v, normal)));
  const across = normalise(inPlane(length(way) > 0.05 * length(spread) ? way : spread));
  const flat = (p: Vec3): Flat => [dot(subtract(p, middle), across), dot(subtract(p, middle), normal)];
  return { studs: tapes.map(({ stud }) => flat(stud)), places: places.map(({ at }) => flat(at)) };
}
