import type { Spread } from "../../studies/jig/jig.ts";
import { linearScale } from "../curves/scale.ts";
import { t } from "../text/text.ts";
import "../curves/curves.css";

interface SpreadPlotProps {
  readonly name: string;
  readonly spread: Spread;
  /** How far either way is asked for; null: anything goes. */
  readonly asked: number | null;
  text(value: number, signed: boolean): string;
}

const WIDTH = 340;
const HEIGHT = 44;
const EDGE = 8;
const AIR = 1.08;

/** One reading with all tolerances: at worst, nine corners in ten, and what is asked for. */
export function SpreadPlot({ name, spread, asked, text }: SpreadPlotProps) {
  const { worst, rootSumSquares, sampled } = spread;
  const [least, low, middle, high, most] = sampled;
  const hasSamples = Number.isFinite(middle);
  const reach = AIR * Math.max(worst, asked ?? 0, ...(hasSamples ? [-least, most] : []), 1e-6);
  const at = linearScale(-reach, reach, EDGE, WIDTH - EDGE);
  const words = hasSamples
    ? t("jig.spread.sampled", { worst: text(worst, false), from: text(low, true), to: text(high, true) })
    : t("jig.spread.worst", { worst: text(worst, false) });
  const isOver = asked !== null && (hasSamples ? Math.max(-low, high) : rootSumSquares) > asked;
  return (
    <figure className="spread-plot" data-over={isOver}>
      <figcaption>
        <b>{name}</b> <span className="tabular">{words}</span>
        {asked !== null && (
          <small className={isOver ? "gear-past" : "quiet"}>
            {t(`jig.spread.${isOver ? "over" : "within"}`, { asked: text(asked, false) })}
          </small>
        )}
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={`${name} ${words}`}>
        <rect className="field-of-plot" x={EDGE} y={2} width={WIDTH - 2 * EDGE} height={HEIGHT - 4} />
        {asked !== null && (
          <rect className="allowed-field" x={at(-asked)} y={2} width={at(asked) - at(-asked)} height={HEIGHT - 4} />
        )}
        <path className="ride-grid" d={`M${at(0)} 2V${HEIGHT - 2}`} />
        <path className="spread-worst" d={`M${at(-worst)} 12V32M${at(worst)} 12V32M${at(-worst)} 22H${at(worst)}`} />
        {hasSamples && (
          <>
            <rect className="spread-most" x={at(least)} y={18} width={at(most) - at(least)} height={8} />
            <rect className="spread-nine" x={at(low)} y={13} width={at(high) - at(low)} height={18} />
            <path className="spread-middle" d={`M${at(middle)} 13V31`} />
          </>
        )}
        {asked !== null && (
          <path className="allowed-edge" d={`M${at(-asked)} 2V${HEIGHT - 2}M${at(asked)} 2V${HEIGHT - 2}`} />
        )}
      </svg>
    </figure>
  );
}
