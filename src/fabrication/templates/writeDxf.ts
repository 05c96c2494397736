import { Colors, DxfWriter, LWPolylineFlags, point2d, point3d, Units } from "@tarikjabiri/dxf";
import { type Drawing, LAYERS, type Layer, type Stroke } from "./drawing.ts";

/** Layers as cutters name them; colours by the AutoCAD Color Index, which most readers sort by. */
const DXF_LAYERS: Readonly<Record<Layer, { readonly name: string; readonly colour: number }>> = {
  cut: { name: "CUT", colour: Colors.White },
  fold: { name: "FOLD", colour: Colors.Blue },
  etch: { name: "ETCH", colour: Colors.Green },
  note: { name: "NOTE", colour: Colors.Magenta },
};

export interface FileOptions {
  /** Nothing but what is cut, folded and etched. */
  readonly withoutNotes?: boolean;
}

/** ASCII DXF in millimetres: rings as closed polylines with arcs, holes as circles, each on the layer of what is done to it. */
export function dxfOf(drawing: Drawing, { withoutNotes = false }: FileOptions = {}): string {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  // metric drawing
  dxf.setVariable("$MEASUREMENT", { 70: 1 });
  for (const layer of LAYERS) {
    if (withoutNotes && layer === "note") continue;
    const { name, colour } = DXF_LAYERS[layer];
    dxf.addLayer(name, colour, "Continuous");
    dxf.setCurrentLayerName(name);
    for (const stroke of drawing.strokes[layer]) draw(dxf, stroke);
    if (layer === "cut" || layer === "fold") continue;
    for (const { at, height_mm, turn_deg, text } of drawing.words[layer]) {
      dxf.addText(point3d(at[0], at[1]), height_mm, text, { rotation: turn_deg });
    }
  }
  dxf.setCurrentLayerName(DXF_LAYERS.cut.name);
  return dxf.stringify();
}

function draw(dxf: DxfWriter, stroke: Stroke): void {
  if (stroke.kind === "circle") {
    dxf.addCircle(point3d(stroke.centre[0], stroke.centre[1]), stroke.diameter_mm / 2);
  } else if (stroke.kind === "ring") {
    const vertices = stroke.corners.map(({ at, bulge }) => ({ point: point2d(at[0], at[1]), bulge }));
    dxf.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed });
  } else if (stroke.points.length === 2) {
    const [a, b] = stroke.points as [(typeof stroke.points)[0], (typeof stroke.points)[0]];
    dxf.addLine(point3d(a[0], a[1]), point3d(b[0], b[1]));
  } else {
    dxf.addLWPolyline(stroke.points.map((at) => ({ point: point2d(at[0], at[1]) })));
  }
}
