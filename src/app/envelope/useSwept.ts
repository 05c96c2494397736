import { useMemo } from "react";
import { useApp } from "../store/useApp.ts";
import type { SweptSurface } from "../viewport/sweptLayer.ts";
import { useEnvelope } from "./envelopeStore.ts";

const NONE: readonly SweptSurface[] = [];

/** The envelope as the view draws it. */
export function useSwept(): readonly SweptSurface[] {
  const shown = useEnvelope((state) => state.shown);
  const tone = useApp((state) => state.bodies.find(({ key }) => key === shown?.key)?.group ?? "arms");
  return useMemo(() => {
    if (!shown || shown.envelope.indices.length === 0) return NONE;
    const { positions, normals, indices } = shown.envelope;
    return [{ positions, normals, indices, tone, on: shown.on }];
  }, [shown, tone]);
}
