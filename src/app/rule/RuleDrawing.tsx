import { t } from "../text/text.ts";
import { travelNumber, travelWord } from "../words/travel.ts";
import { graduations } from "./graduations.ts";
import type { TravelRuleProps } from "./ruleProps.ts";
import { FLAG_HEIGHT, LANE_REACH_px, LANE_WIDTH, RULE_PAD, type RuleShape } from "./ruleShape.ts";

type DrawingProps = TravelRuleProps & { readonly shape: RuleShape };

/** A label this near to the flag's line would be struck through. */
const LABEL_CLEAR_px = 9;

/** The rule as a picture; what it means to the ear and the hand is TravelRule's. */
export function RuleDrawing(props: DrawingProps) {
  const { shape, large } = props;
  return (
    <svg
      width={shape.width}
      height={shape.height}
      viewBox={`0 0 ${shape.width} ${shape.height}`}
      aria-hidden="true"
      className={large ? "rule-drawing large" : "rule-drawing"}
    >
      <Steel shape={shape} />
      <Lines {...props} />
      <Lane {...props} />
      <Ends {...props} />
      <Flag {...props} />
    </svg>
  );
}

function Steel({ shape: { edge, height, x } }: { shape: RuleShape }) {
  const [far, near] = [x(2), x(edge)];
  const corner = far < near ? 12 : -12;
  return (
    <>
      <path
        className="steel"
        d={`M${far} 14Q${far} 2 ${far + corner} 2H${near - corner}Q${near} 2 ${near} 14V${height - 3}H${far}Z`}
      />
      <circle className="hole" cx={x(edge / 2 + 1)} cy="15" r="5.5" />
    </>
  );
}

const LINE = { long: [17, 1.7], middle: [12, 1.3], short: [6, 0.8] } as const;

function Lines({ shape, range_mm, unit, side, travel_mm }: DrawingProps) {
  const { edge, x, y } = shape;
  const flag = y(travel_mm);
  return graduations(range_mm[0], range_mm[1], shape.height - 2 * RULE_PAD, unit).map((line) => {
    const at = y(line.travel_mm);
    const [length, weight] = LINE[line.rank];
    const hidden = Math.abs(at - flag) < LABEL_CLEAR_px;
    return (
      <g key={line.travel_mm}>
        <path className="line" d={`M${x(edge)} ${at}H${x(edge - length)}`} strokeWidth={weight} />
        {line.label !== null && !hidden && (
          <text
            className={line.label === "0" ? "figure ride" : `figure ${line.rank}`}
            x={x(edge - length - 4)}
            y={at}
            dy="0.36em"
            textAnchor={side === "right" ? "start" : "end"}
          >
            {line.label}
          </text>
        )}
      </g>
    );
  });
}

function Lane({ shape, bands, still, held_mm, reach_mm, range_mm, unchecked, stale }: DrawingProps) {
  const { edge, x, y, boxX } = shape;
  const left = boxX(edge + 2, LANE_WIDTH);
  const box = (from_mm: number, to_mm: number) => ({
    x: left,
    width: LANE_WIDTH,
    y: y(to_mm),
    height: Math.max(2, y(from_mm) - y(to_mm)),
  });
  return (
    <g className={stale ? "lane stale" : "lane"}>
      <rect
        className="lane-reach"
        {...box(range_mm[0], range_mm[1])}
        x={boxX(edge - LANE_WIDTH / 2, LANE_REACH_px)}
        width={LANE_REACH_px}
      />
      <rect className={unchecked ? "lane-back unchecked" : "lane-back"} {...box(range_mm[0], range_mm[1])} />
      {still && <rect className={`still ${still.kind}`} {...box(range_mm[0], range_mm[1])} />}
      {bands.map((band) => (
        <rect key={`${band.kind} ${band.from_mm}`} className={band.kind} {...box(band.from_mm, band.to_mm)} />
      ))}
      {reach_mm[1] < range_mm[1] && <rect className="beyond" {...box(reach_mm[1], range_mm[1])} />}
      {reach_mm[0] > range_mm[0] && <rect className="beyond" {...box(range_mm[0], reach_mm[0])} />}
      {held_mm && (
        <path
          className="bracket"
          d={`M${x(edge + 19)} ${y(held_mm[1])}H${x(edge + 24)}V${y(held_mm[0])}H${x(edge + 19)}`}
        />
      )}
      <path className="ride-line" d={`M${x(edge - 17)} ${y(0)}H${x(edge + 16)}`} />
    </g>
  );
}

const ENDS = [
  { word: "bump", y: () => RULE_PAD - 15 },
  { word: "droop", y: (height: number) => height - RULE_PAD + 26 },
] as const;

function Ends({ shape, side, travel_mm }: DrawingProps) {
  const { edge, height, x } = shape;
  const flag = shape.y(travel_mm);
  const isFree = (y: number): boolean => Math.abs(y - flag) > FLAG_HEIGHT / 2 + 8;
  const anchor = side === "right" ? "end" : "start";
  return (
    <>
      <path className="arrow" d={`M${x(edge + 9)} ${RULE_PAD - 25}l-4.5 9h9z`} />
      <path className="arrow" d={`M${x(edge + 9)} ${height - RULE_PAD + 27}l-4.5-9h9z`} />
      {ENDS.map(({ word, y }) => {
        const at = y(height);
        return (
          isFree(at) && (
            <text key={word} className="end" x={x(edge + 20)} y={at} textAnchor={anchor}>
              {t(`rule.ends.${word}`)}
            </text>
          )
        );
      })}
    </>
  );
}

function Flag({ shape, travel_mm, unit }: DrawingProps) {
  const { edge, flagWidth, x } = shape;
  const y = shape.y(travel_mm);
  const tip = edge + LANE_WIDTH;
  const spots = [
    [tip, 0],
    [tip + 14, -1],
    [tip + 14 + flagWidth, -1],
    [tip + 14 + flagWidth, 1],
    [tip + 14, 1],
  ].map(([left, up]) => `${x(left!)},${y + (up! * FLAG_HEIGHT) / 2}`);
  const middle = x(tip + 12 + flagWidth / 2);
  return (
    <g className="flag">
      <path className="flag-line" d={`M${x(2)} ${y}H${x(tip)}`} />
      <polygon points={spots.join(" ")} />
      <text className="flag-figure" x={middle} y={y + 1} textAnchor="middle">
        {travelNumber(travel_mm, unit)}
        {unit === "in" && ` ${unit}`}
      </text>
      <text className="flag-word" x={middle} y={y + 15} textAnchor="middle">
        {t(`rule.flag.${travelWord(travel_mm)}`)}
      </text>
    </g>
  );
}
