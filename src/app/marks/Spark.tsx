import { linePath, type Reading, runsBelow, type Spot } from "../curves/linePath.ts";
import { linearScale } from "../curves/scale.ts";

interface SparkProps {
  readonly readings: readonly Reading[];
  readonly required_mm: number;
  readonly reach_mm: readonly [number, number];
  readonly travel_mm: number;
  readonly width?: number;
  readonly height?: number;
}

/** A gap over the travel, small: gap across, travel up; hatched where it clashes, washed where it is tight. */
export function Spark({ readings, required_mm, reach_mm, travel_mm, width = 64, height = 58 }: SparkProps) {
  const wanted = Math.max(required_mm, 1);
  const across = linearScale(-0.9 * wanted, 2.2 * wanted, 2, width - 2);
  const up = linearScale(reach_mm[0], reach_mm[1], height - 3, 3);
  const x = (gap_mm: number): number => across(Math.min(across.to, Math.max(across.from, gap_mm)));
  const spot = ({ travel_mm: travel, value }: Reading): Spot => [x(value), up(travel)];
  const area = (limit: number): string =>
    runsBelow(readings, limit)
      .map((run) => {
        const edge: Spot[] = [
          [across(0), up(run[0]!.travel_mm)],
          ...run.map(spot),
          [across(0), up(run.at(-1)!.travel_mm)],
        ];
        return `${linePath(edge)}Z`;
      })
      .join("");
  return (
    <svg className="spark" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <rect x="0.5" y="0.5" width={width - 1} height={height - 1} fill="var(--sheet)" stroke="var(--line)" />
      <path d={area(required_mm)} fill="var(--tight-wash)" />
      <path d={area(0)} fill="url(#pattern-clash)" />
      <path d={`M${x(required_mm)} 1V${height - 1}`} stroke="var(--tight)" strokeDasharray="2 2" />
      <path d={`M${across(0)} 1V${height - 1}`} stroke="var(--ink)" strokeWidth="1.3" />
      <path d={linePath(readings.map(spot))} fill="none" stroke="var(--ink)" strokeWidth="1.8" strokeLinejoin="round" />
      <path d={`M0 ${up(travel_mm)}H${width}`} stroke="var(--ink)" opacity="0.55" />
    </svg>
  );
}
