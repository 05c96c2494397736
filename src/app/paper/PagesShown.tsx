import { useId, useMemo } from "react";
import type { Mark, MarkedPage, Spot } from "../../fabrication/paper/marks.ts";
import { usePicture } from "../log/usePicture.ts";
import { t } from "../text/text.ts";

/** The pages of a sheet as they will be printed. */
export function PagesShown({ title, pages }: { title: string; pages: readonly MarkedPage[] }) {
  return (
    <ol className="paper-pages">
      {pages.map((page, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a page is known by its place
        <li key={i}>
          <svg
            role="img"
            aria-label={t("paper.pageShown", { title, page: i + 1, pages: pages.length })}
            viewBox={`0 0 ${page.width_mm} ${page.height_mm}`}
          >
            <Marks marks={page.marks} />
          </svg>
        </li>
      ))}
    </ol>
  );
}

function Marks({ marks }: { marks: readonly Mark[] }) {
  // biome-ignore lint/suspicious/noArrayIndexKey: marks neither move nor change
  return marks.map((mark, i) => <Marked key={i} mark={mark} />);
}

function Marked({ mark }: { mark: Mark }) {
  switch (mark.kind) {
    case "path":
      return <path d={wayOf(mark.spots) + (mark.closed ? "Z" : "")} {...strokeOf(mark)} />;
    case "circle":
      return <circle cx={mark.at[0]} cy={mark.at[1]} r={mark.radius_mm} {...strokeOf(mark)} />;
    case "fill":
      return (
        <path
          d={mark.outlines.map((spots) => `${wayOf(spots)}Z`).join("")}
          fillRule="evenodd"
          fill={inkOf(mark.grey)}
        />
      );
    case "text":
      return (
        <text
          x={mark.at[0]}
          y={mark.at[1]}
          fontSize={mark.size_mm}
          fontWeight={mark.bold ? 700 : 400}
          textLength={mark.width_mm || undefined}
          lengthAdjust="spacingAndGlyphs"
          transform={mark.turn_deg === 0 ? undefined : `rotate(${-mark.turn_deg} ${mark.at[0]} ${mark.at[1]})`}
          fill={inkOf(mark.grey)}
        >
          {mark.text}
        </text>
      );
    case "picture":
      return <Picture mark={mark} />;
    case "within":
      return <Within mark={mark} />;
  }
}

function Picture({ mark }: { mark: Extract<Mark, { kind: "picture" }> }) {
  const { at, width_mm, height_mm, bytes, type } = mark;
  const shown = useMemo(
    () => ({ bytes, type: type === "png" ? ("image/png" as const) : ("image/jpeg" as const) }),
    [bytes, type],
  );
  const address = usePicture(shown);
  if (!address) return null;
  return <image href={address} x={at[0]} y={at[1]} width={width_mm} height={height_mm} preserveAspectRatio="none" />;
}

function Within({ mark }: { mark: Extract<Mark, { kind: "within" }> }) {
  const id = useId();
  return (
    <>
      <clipPath id={id}>
        <rect x={mark.at[0]} y={mark.at[1]} width={mark.width_mm} height={mark.height_mm} />
      </clipPath>
      <g clipPath={`url(#${id})`}>
        <Marks marks={mark.marks} />
      </g>
    </>
  );
}

function wayOf(spots: readonly Spot[]): string {
  return spots.map(([right, down], i) => `${i === 0 ? "M" : "L"}${right} ${down}`).join("");
}

function strokeOf({ width_mm, dash_mm, grey }: Extract<Mark, { kind: "path" | "circle" }>) {
  return { fill: "none", stroke: inkOf(grey), strokeWidth: width_mm, strokeDasharray: dash_mm?.join(" ") };
}

function inkOf(grey: number): string {
  const level = Math.round(255 * grey);
  return `rgb(${level} ${level} ${level})`;
}
