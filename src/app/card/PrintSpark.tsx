import type { PairVerdict } from "../../check/result.ts";
import { linePath, type Reading, runsBelow, type Spot } from "../curves/linePath.ts";
import { linearScale } from "../curves/scale.ts";

const WIDTH = 62;
const HEIGHT = 30;

/** A gap over the travel in black and white: gap across, travel up. */
export function PrintSpark({ pair, reach_mm }: { pair: PairVerdict; reach_mm: readonly [number, number] }) {
  const wanted = Math.max(pair.required_mm, 1);
  const across = linearScale(-0.9 * wanted, 2.2 * wanted, 2, WIDTH - 2);
  const up = linearScale(reach_mm[0], reach_mm[1], HEIGHT - 2, 2);
  const x = (gap_mm: number) => across(Math.min(across.to, Math.max(across.from, gap_mm)));
  const spot = ({ travel_mm, value }: Reading): Spot => [x(value), up(travel_mm)];
  const readings = pair.profile.map(([travel_mm, value]): Reading => ({ travel_mm, value }));
  const area = (limit: number) =>
    runsBelow(readings, limit)
      .map((run) => [
        [x(0), up(run[0]!.travel_mm)] as Spot,
        ...run.map(spot),
        [x(0), up(run.at(-1)!.travel_mm)] as Spot,
      ])
      .map((outline) => `${linePath(outline)}Z`)
      .join("");
  return (
    <svg className="print-spark" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <rect x="0.5" y="0.5" width={WIDTH - 1} height={HEIGHT - 1} className="frame" />
      <path d={area(pair.required_mm)} className="band tight" />
      <path d={area(0)} className="band clash" />
      <path d={`M${x(pair.required_mm)} 1V${HEIGHT - 1}`} strokeDasharray="2 2" className="line" />
      <path d={`M${x(0)} 1V${HEIGHT - 1}`} strokeWidth="1.3" className="line" />
      <path d={linePath(readings.map(spot))} strokeWidth="1.8" className="line curve" />
    </svg>
  );
}
