import { viewHandle } from "../shell/viewHandle.ts";

const WIDTH = 960;
const HEIGHT = 600;

/** The view as the builder looks at it, in daylight on white so that it prints. Rejects where no view is shown. */
export async function takePicture(): Promise<Blob> {
  const view = viewHandle.current;
  if (!view) throw new Error("no view is shown here; make the card in the Corner to have one");
  return view.snapshot(WIDTH, HEIGHT, { theme: "daylight", white: true, pixelRatio: 2 });
}
