import { withinText } from "../text/formats.ts";
import { t } from "../text/text.ts";
import "./section.css";
import { useId, useMemo } from "react";
import type { PairVerdict } from "../../check/result.ts";
import { useApp } from "../store/useApp.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { lengthNumber } from "../words/number.ts";
import { sectionOf } from "./section.ts";
import type { Flat } from "./sliceSolid.ts";

const WIDTH = 158;
const HEIGHT = 122;

/** The chosen touch cut through at its worst state: the parts' true outlines, hatched where they overlap, and the depth or gap. */
export function SectionDrawing({ pair }: { pair: PairVerdict }) {
  const scene = useApp((state) => state.scene);
  const bodies = useApp((state) => state.bodies);
  const unit = useApp((state) => state.unit);
  const id = useId();
  const section = useMemo(() => scene && sectionOf(pair, scene, bodies), [pair, scene, bodies]);
  // the closest places of a pair that is only proved to stay clear are not known
  if (!section || pair.isAtLeast) return null;
  const scale = (HEIGHT / 2 - 8) / section.reach_mm;
  const at = ([x, y]: Flat): Flat => [WIDTH / 2 + x * scale, HEIGHT / 2 - y * scale];
  const paths = section.outlines.map((outlines) => pathOf(outlines, at));
  const [first, second] = [nameOf(pair.a, scene), nameWithin(pair.b, scene)];
  return (
    <svg
      className="section"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={t("section.label", { a: first, b: second })}
    >
      <clipPath id={id}>
        <path d={paths[0]} />
      </clipPath>
      {/* bodies may be groups of shells that run into each other: a fill over its own outline leaves the outer half of it */}
      <path className="outline" d={paths[0]} />
      <path className="first" d={paths[0]} />
      <path className="first-hatch" d={paths[0]} />
      <path className="outline" d={paths[1]} />
      <path className="second" d={paths[1]} />
      <g clipPath={`url(#${id})`}>
        <path className="overlap" d={paths[1]} />
      </g>
      <Dimension from={at(section.from)} to={at(section.to)} text={lengthNumber(Math.abs(pair.clearance_mm), unit)} />
      <PartLabels names={[first, second]} />
    </svg>
  );
}

function pathOf(outlines: readonly Flat[][], at: (place: Flat) => Flat): string {
  return outlines
    .map((outline) => {
      const spots = outline.map((place) =>
        at(place)
          .map((value) => value.toFixed(1))
          .join(" "),
      );
      return `M${spots.join("L")}Z`;
    })
    .join("");
}

const ARROW = 13;
const RISE = 34;

/** Two arrows that point at each other across the depth or gap, on lines drawn out to where there is room for the figure. */
function Dimension({ from, to, text }: { from: Flat; to: Flat; text: string }) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const size = Math.hypot(dx, dy);
  const [ux, uy] = size < 0.5 ? [1, 0] : [dx / size, dy / size];
  // square to the dimension, whichever way is up the drawing
  const [sx, sy] = ux > 0 || (ux === 0 && uy > 0) ? [uy, -ux] : [-uy, ux];
  const [a, b]: [Flat, Flat] = [
    [from[0] + sx * RISE, from[1] + sy * RISE],
    [to[0] + sx * RISE, to[1] + sy * RISE],
  ];
  const right = ux >= 0 ? b : a;
  return (
    <g className="dimension">
      <path d={`M${from.join(" ")}L${a.join(" ")}M${to.join(" ")}L${b.join(" ")}`} />
      <path d={`${arrow(a, [-ux, -uy])}${arrow(b, [ux, uy])}`} />
      <text
        x={Math.min(WIDTH - 34, Math.max(6, right[0] + ARROW + 3))}
        y={Math.min(HEIGHT - 24, Math.max(14, right[1] + 4))}
      >
        {text}
      </text>
    </g>
  );
}

/** An arrow whose point is at `tip`, coming from direction `out`. */
function arrow([x, y]: Flat, [ox, oy]: Flat): string {
  const barb = (turn: number): string => `M${x} ${y}l${ox * 6 - oy * 3 * turn} ${oy * 6 + ox * 3 * turn}`;
  return `M${x} ${y}l${ox * ARROW} ${oy * ARROW}${barb(1)}${barb(-1)}`;
}

/** Which part is drawn how: hatched the first, plain the second. */
function PartLabels({ names }: { names: readonly [string, string] }) {
  const foot = HEIGHT - 6;
  return (
    <g className="part-labels">
      <rect className="first" x="6" y={foot - 9} width="10" height="10" />
      <rect className="first-hatch" x="6" y={foot - 9} width="10" height="10" />
      <text x="20" y={foot}>
        {lastWords(names[0])}
      </text>
      <rect className="second" x={WIDTH - 16} y={foot - 9} width="10" height="10" />
      <text x={WIDTH - 20} y={foot} textAnchor="end">
        {lastWords(names[1])}
      </text>
    </g>
  );
}

/** A long name's last two words, which say what the part is. */
function lastWords(name: string): string {
  const words = withinText(name).split(" ");
  return words.length > 2 ? words.slice(-2).join(" ") : words.join(" ");
}
