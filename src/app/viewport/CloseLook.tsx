import { type ReactNode, type RefObject, useEffect, useRef } from "react";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Theme } from "../store/state.ts";
import type { SecondView } from "./secondView.ts";
import type { ViewportHandle } from "./Viewport.tsx";

export interface CloseLookProps {
  readonly viewport: RefObject<ViewportHandle | null>;
  /** The touch, car coordinates, mm. */
  readonly at: Vec3;
  /** From the touch to the eye (closeLookDirection). */
  readonly from: Vec3;
  /** How much of the car the height shows, mm. */
  readonly span_mm: number;
  /** Keys of the two bodies; null shows all as the main picture does (the other side's inset). */
  readonly pair: readonly string[] | null;
  readonly width: number;
  readonly height: number;
  /** The touch's lens is round with a paint-pen ring, an inset is a plain rectangle. */
  readonly shape: "round" | "plain";
  readonly theme: Theme;
  readonly label: string;
  /** Drawn over it. */
  readonly children?: ReactNode;
}

/** A second picture of the car from close by, drawn by the viewport's own renderer. */
export function CloseLook(props: CloseLookProps) {
  const { viewport, at, from, span_mm, pair, width, height, shape, theme, label, children } = props;
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const viewRef = useRef<SecondView | null>(null);

  useEffect(() => {
    const canvas = canvasRef.current;
    if (canvas === null) return;
    const view = viewport.current?.addView(canvas) ?? null;
    viewRef.current = view;
    return () => {
      viewRef.current = null;
      view?.remove();
    };
  }, [viewport]);

  useEffect(() => {
    viewRef.current?.set({ width, height, at, from, span_mm, pair });
  }, [width, height, at, from, span_mm, pair]);

  const ink = theme === "daylight" ? "#12191B" : "#EEF2EF";
  const dark = theme === "daylight" ? "#12191B" : "#101618";
  const round = shape === "round";
  return (
    <div
      role="img"
      aria-label={label}
      style={{
        position: "relative",
        width,
        height,
        overflow: round ? "visible" : "hidden",
        borderRadius: round ? "50%" : 3,
        boxShadow: round ? `0 0 0 2px ${dark}, 0 0 0 6px #F0E442, 0 0 0 7.5px ${dark}` : `0 0 0 1px ${ink}`,
      }}
    >
      <canvas ref={canvasRef} style={{ width, height, display: "block", borderRadius: "inherit" }} />
      {children}
    </div>
  );
}
