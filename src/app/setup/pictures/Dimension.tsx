interface DimensionProps {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly label: string;
  /** The one that is asked for. */
  readonly isWanted: boolean;
  /** Where the label stands from the arrow's middle. */
  readonly shift?: readonly [number, number];
  readonly anchor?: "start" | "middle" | "end";
}

const HEAD = 7;

/** A dimension arrow with its label; the wanted one is drawn thick on a held band. */
export function Dimension({ from, to, label, isWanted, shift = [0, -7], anchor = "middle" }: DimensionProps) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  const [ux, uy] = length < 1e-6 ? [1, 0] : [dx / length, dy / length];
  const head = ([x, y]: readonly [number, number], way: 1 | -1) => {
    const [bx, by] = [x - way * HEAD * ux, y - way * HEAD * uy];
    return `${x},${y} ${bx - 3 * uy},${by + 3 * ux} ${bx + 3 * uy},${by - 3 * ux}`;
  };
  const line = { x1: from[0], y1: from[1], x2: to[0], y2: to[1] };
  return (
    <g className="dimension" data-wanted={isWanted}>
      {isWanted && <line {...line} className="dimension-band" />}
      <line {...line} />
      {length > 2 * HEAD && <polygon points={head(from, -1)} />}
      {length > 1 && <polygon points={head(to, 1)} />}
      <text x={(from[0] + to[0]) / 2 + shift[0]} y={(from[1] + to[1]) / 2 + shift[1]} textAnchor={anchor}>
        {label}
      </text>
    </g>
  );
}
