import type { Card } from "../../buildlog/entry.ts";
import type { Side } from "../../scene/scene.ts";
import { bandsOfSide } from "../rule/bands.ts";
import { graduations } from "../rule/graduations.ts";
import type { Unit } from "../store/state.ts";
import { t } from "../text/text.ts";
import { travelNumber, travelWord } from "../words/travel.ts";

const BODY = 44;
const LANE = 14;
const PAD = 34;
const WIDTH = 150;

/** The travel rule in black and white: hatched where something touches, dotted where something is tight. */
export function PrintRule({ card, side, unit, height }: { card: Card; side: Side; unit: Unit; height: number }) {
  const { bump, droop } = card.range_mm;
  const at = card.travel_mm[side];
  const y = (travel_mm: number) => PAD + ((bump - travel_mm) / (bump + droop || 1)) * (height - 2 * PAD);
  const edge = 2 + BODY;
  const flag = y(at);
  const marks = graduations(-droop, bump, height - 2 * PAD, unit);
  const isUnderFlag = (travel_mm: number) => Math.abs(y(travel_mm) - flag) < 9 && travel_mm !== at;
  return (
    <svg className="print-rule" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={t(`card.rule.label.${side}`)}>
      <path d={`M2 14a12 12 0 0 1 12-12h${BODY - 24}a12 12 0 0 1 12 12V${height - 2}H2z`} className="outline" />
      <circle cx={2 + BODY / 2} cy="15" r="5.5" className="outline" />
      {marks.map(({ travel_mm, rank, label }) => (
        <g key={travel_mm}>
          <path d={`M${edge} ${y(travel_mm)}h${-TICK[rank].length}`} strokeWidth={TICK[rank].weight} className="line" />
          {label !== null && !isUnderFlag(travel_mm) && (
            <text x={edge - 20} y={y(travel_mm) + 4.5} textAnchor="end" className="figure">
              {label}
            </text>
          )}
        </g>
      ))}
      <rect x={edge + 2} y={PAD} width={LANE} height={height - 2 * PAD} className="outline" />
      {bandsOfSide(card.pairs, side).map((band) => (
        <rect
          key={`${band.kind}${band.from_mm}`}
          x={edge + 2}
          y={y(band.to_mm)}
          width={LANE}
          height={Math.max(1, y(band.from_mm) - y(band.to_mm))}
          className={`band ${band.kind}`}
        />
      ))}
      <path d={`M${edge - 17} ${y(0)}h33`} strokeWidth="2.4" className="line" />
      <path d={`M${edge + 9} 9l-4.5 9h9zM${edge + 9} ${height - 9}l-4.5-9h9z`} className="solid" />
      <text x={edge + 22} y="18" className="word">
        {t("card.rule.bump")}
      </text>
      <text x={edge + 22} y={height - 9} className="word">
        {t("card.rule.droop")}
      </text>
      <path d={`M2 ${flag}h${edge + 12}`} strokeWidth="2" className="line" />
      <path d={`M${edge + 14} ${flag}l14-21h72v42h-72z`} className="solid" />
      <text x={edge + 63} y={flag} textAnchor="middle" className="flag-figure">
        {travelNumber(at, unit)}
      </text>
      <text x={edge + 63} y={flag + 14} textAnchor="middle" className="flag-word">
        {unit === "in" ? t("card.rule.inches", { travel: travelWord(at) }) : travelWord(at)}
      </text>
    </svg>
  );
}

const TICK = {
  long: { length: 17, weight: 1.7 },
  middle: { length: 12, weight: 1.3 },
  short: { length: 6, weight: 0.8 },
} as const;
