import { createRef } from "react";
import type { ViewportHandle } from "../viewport/Viewport.tsx";

/** The view that is shown, for pictures and for moving the eye; `current` is null while there is none. */
export const viewHandle = createRef<ViewportHandle>();
