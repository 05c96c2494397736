import type { Vec3 } from "../../src/maths/vec3.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import type { RoomRequest } from "../../src/studies/room/room.ts";
import type { Question } from "../../src/work/protocol.ts";

/** Some hundred places of the upper link's pivot, for which the damper's own end does not count. */
export function roomOf(document: SceneDocument): Question<RoomRequest> {
  const axes: readonly Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  return {
    document,
    points: ["upper.in"],
    fit: "cut",
    limits: {},
    leaveOut: ["damper-length", "stop"],
    travelStep_mm: 20,
    marginUpTo_mm: 10,
    region: { spans: axes.map((along) => ({ along, from_mm: -18, to_mm: 18 })), step_mm: 9 },
  };
}
