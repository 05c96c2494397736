import { add, type Vec3 } from "../../../maths/vec3.ts";
import { fromDatum, toDatum } from "../../../scene/datum.ts";
import { MM_PER_INCH } from "../../../scene/length.ts";
import type { Datum, Member, Scene, Side } from "../../../scene/scene.ts";
import { parseTyre } from "../../../scene/tyre.ts";
import type { Direction } from "../../points/usePointMove.ts";
import { t } from "../../text/text.ts";
import { Dimension } from "./Dimension.tsx";

type Flat = readonly [number, number];

interface PlacePictureProps {
  readonly scene: Scene;
  readonly side: Side;
  /** What is sought, car coordinates; null: only the corner. */
  readonly at: Vec3 | null;
  readonly datum: Datum | null;
  readonly direction: Direction | null;
  readonly label: string;
}

const SIZE = { width: 372, height: 178 } as const;
const PANEL_W = 182;
const TOP = 18;
/** Of the mark at the place. */
const MARK_R = 8;
/** Room for the longest label. */
const LABEL_W = 44;

/** The corner as it is so far, from behind and from above, with the arrows that lead to the place that is sought. */
export function PlacePicture({ scene, side, at, datum, direction, label }: PlacePictureProps) {
  const mirrored = side === "right" ? -1 : 1;
  const seen = at === null ? null : ([at[0], at[1] * mirrored, at[2]] as Vec3);
  const box = bounds(scene, seen);
  const behind = panel(0, box.out, box.up, ([, y, z]) => [side === "right" ? y : -y, -z], side === "right");
  const above = panel(PANEL_W + 8, box.out, box.forward, ([x, y]) => [side === "right" ? y : -y, -x], side === "right");
  const legs = at === null ? null : legsOf(at, datum, side);
  const flip = (p: Vec3): Vec3 => [p[0], p[1] * mirrored, p[2]];
  /** `edge`: where its panel ends on the right. */
  const arrow = (way: Direction, project: (p: Vec3) => Flat, edge: number) => {
    if (!legs) return null;
    const [from, to] = [project(flip(legs[way])), project(seen!)];
    const beside = Math.hypot(to[0] - from[0], to[1] - from[1]) < 2 * MARK_R ? MARK_R + 4 : 6;
    const fits = (from[0] + to[0]) / 2 + beside + LABEL_W < edge;
    const place: { readonly shift: Flat; readonly anchor: "start" | "middle" | "end" } =
      way === "out" && fits
        ? { shift: [0, -6], anchor: "middle" }
        : fits
          ? { shift: [beside, 4], anchor: "start" }
          : { shift: [-beside, way === "out" ? -10 : 4], anchor: "end" };
    return (
      <Dimension
        from={from}
        to={to}
        label={t(`setup.directions.${way}`)}
        isWanted={direction === null || direction === way}
        {...place}
      />
    );
  };
  return (
    <svg
      viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
      className="setup-picture"
      role="img"
      aria-label={label}
      aria-hidden={label === "" || undefined}
    >
      <Panel x={0} title={t("setup.views.behind")}>
        <line {...ends(behind([0, box.out[0], 0]), behind([0, box.out[1], 0]))} className="ground" />
        <line {...ends(behind([0, 0, box.up[0]]), behind([0, 0, box.up[1]]))} className="centre-line" />
        <Outline scene={scene} project={behind} view="behind" />
        {arrow("out", behind, PANEL_W)}
        {arrow("up", behind, PANEL_W)}
        {seen && <Mark at={behind(seen)} />}
      </Panel>
      <Panel x={PANEL_W + 8} title={t("setup.views.above")}>
        <line {...ends(above([0, box.out[0], 0]), above([0, box.out[1], 0]))} className="axle-line" />
        <line {...ends(above([box.forward[0], 0, 0]), above([box.forward[1], 0, 0]))} className="centre-line" />
        <Outline scene={scene} project={above} view="above" />
        {arrow("forward", above, SIZE.width)}
        {seen && <Mark at={above(seen)} />}
      </Panel>
    </svg>
  );
}

function Panel({ x, title, children }: { x: number; title: string; children: React.ReactNode }) {
  return (
    <g>
      <rect x={x + 0.5} y={0.5} width={PANEL_W - 1} height={SIZE.height - 1} rx={4} className="panel" />
      <text x={x + 8} y={14} className="panel-title">
        {title}
      </text>
      {children}
    </g>
  );
}

/** Where each arrow begins: the place without that one step from the datum. */
function legsOf(at: Vec3, datum: Datum | null, side: Side): Record<Direction, Vec3> {
  const reading = toDatum(datum, at, side);
  return {
    forward: fromDatum(datum, { ...reading, forward_mm: 0 }, side),
    out: fromDatum(datum, { ...reading, out_mm: 0 }, side),
    up: fromDatum(datum, { ...reading, up_mm: 0 }, side),
  };
}

function Outline({ scene, project, view }: { scene: Scene; project(p: Vec3): Flat; view: "behind" | "above" }) {
  const { centre } = scene.wheel;
  const [radius, half] = tyreSize(scene);
  const corner = (x: number, y: number, z: number) => project(add(centre, [x, y, z]));
  const box =
    view === "behind"
      ? [corner(0, half, radius), corner(0, -half, -radius)]
      : [corner(radius, half, 0), corner(-radius, -half, 0)];
  const [[ax, ay], [bx, by]] = box as [Flat, Flat];
  return (
    <>
      <rect
        x={Math.min(ax, bx)}
        y={Math.min(ay, by)}
        width={Math.abs(ax - bx)}
        height={Math.abs(ay - by)}
        rx={7}
        className="tyre"
      />
      {scene.members.flatMap((member) =>
        linesOf(member, centre).map(([a, b], i) => (
          <line key={`${member.id}${i === 0 ? "" : "-2"}`} {...ends(project(a), project(b))} className="member" />
        )),
      )}
      {scene.damper && (
        <line {...ends(project(scene.damper.top), project(scene.damper.bottom))} className="member thick" />
      )}
      {scene.driveshaft && (
        <line
          {...ends(project(scene.driveshaft.inner.left.at), project(scene.driveshaft.outer))}
          className="member dashed"
        />
      )}
    </>
  );
}

function linesOf(member: Member, centre: Vec3): readonly (readonly [Vec3, Vec3])[] {
  switch (member.kind) {
    case "ball":
      return [[member.at, centre]];
    case "link":
      return [[member.inboard, member.outboard]];
    case "wishbone":
      return [
        [member.front, member.outboard],
        [member.rear, member.outboard],
      ];
    case "hinge":
      return [
        [member.front, centre],
        [member.rear, centre],
      ];
    case "strut":
      return [[member.top, member.bottom]];
  }
}

/** Overall radius and half of the section width, mm. */
function tyreSize({ wheel }: Scene): readonly [number, number] {
  const { sectionWidth_mm, aspect, rimDiameter_in } = parseTyre(wheel.tyre);
  return [(rimDiameter_in * MM_PER_INCH) / 2 + (sectionWidth_mm * aspect) / 100, sectionWidth_mm / 2];
}

function Mark({ at: [x, y] }: { at: Flat }) {
  return (
    <g className="sought">
      <circle cx={x} cy={y} r={MARK_R} />
      <circle cx={x} cy={y} r={2.5} className="middle" />
    </g>
  );
}

interface Box {
  readonly forward: Flat;
  readonly out: Flat;
  readonly up: Flat;
}

function bounds(scene: Scene, at: Vec3 | null): Box {
  const { centre } = scene.wheel;
  const [radius, half] = tyreSize(scene);
  const points: Vec3[] = [
    [0, 0, 0],
    add(centre, [radius, half, radius]),
    add(centre, [-radius, half, -radius]),
    ...[...scene.points.values()].map((point) => point.at).filter(([, y]) => y > -120),
    ...(at === null ? [] : [at]),
  ];
  const of = (k: 0 | 1 | 2): Flat => {
    const values = points.map((point) => point[k]);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const margin = 0.07 * (high - low);
    return [low - margin, high + margin];
  };
  return { forward: of(0), out: of(1), up: of(2) };
}

/** The projection of one panel: same scale both ways, the car's middle on its own side. */
function panel(x: number, across: Flat, along: Flat, flatten: (p: Vec3) => Flat, isRight: boolean): (p: Vec3) => Flat {
  const [w, h] = [PANEL_W - 12, SIZE.height - TOP - 8];
  const factor = Math.min(w / (across[1] - across[0]), h / (along[1] - along[0]));
  const left = isRight ? across[0] : -across[1];
  const slackX = (w - factor * (across[1] - across[0])) / 2;
  const slackY = (h - factor * (along[1] - along[0])) / 2;
  return (p) => {
    const [u, v] = scaleFlat(flatten(p), factor);
    return [x + 6 + slackX + u - factor * left, TOP + slackY + v + factor * along[1]];
  };
}

function scaleFlat([u, v]: Flat, factor: number): Flat {
  return [u * factor, v * factor];
}

function ends(a: Flat, b: Flat) {
  return { x1: a[0], y1: a[1], x2: b[0], y2: b[1] };
}
