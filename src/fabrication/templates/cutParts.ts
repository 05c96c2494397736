import type { MadeDocument, SceneDocument } from "../../scene/document.ts";
import { isAsMade } from "../../scene/parts/follow.ts";
import { pointResolver } from "../../scene/pointResolver.ts";
import type { Scene, Shape } from "../../scene/scene.ts";
import type { OnSides } from "./flatPart.ts";

/** A body that may be cut and welded by the builder. */
export interface CutPart {
  readonly id: string;
  /** What it is fixed to; parts of one mount stand still to each other. */
  readonly mount: string;
  readonly shape: Shape;
  readonly sides: OnSides;
  /** Its recipe, while it still describes the shape. */
  readonly made: MadeDocument | null;
  /** Brackets, frame and arms that are not the donor's; others are only cut when they are asked for by name. */
  readonly isBuilt: boolean;
}

const BUILT_ROLES: ReadonlySet<string | null> = new Set(["bracket", "frame", "link"]);

/** Every body with a shape of its own, the frame and its brackets first as the scene lists them, then members. */
export function cutParts(scene: Scene, document: SceneDocument): CutPart[] {
  const place = pointResolver(document).drawn;
  const onBoth: OnSides = scene.sides.length > 1 ? "both" : "one";
  const bodies = scene.bodies.map((body, i): CutPart => {
    const { made, shape } = document.bodies[i]!;
    const isFixed = body.on === "chassis" || body.on === "powertrain";
    return {
      id: body.id,
      mount: body.on,
      shape: body.shape,
      sides: isFixed && !body.mirror ? "one" : onBoth,
      made: made && isAsMade(shape, made, place) ? made : null,
      isBuilt: BUILT_ROLES.has(body.role),
    };
  });
  const members = scene.members.flatMap((member, i): CutPart[] => {
    if (!member.body) return [];
    const { made, body } = document.members[i]!;
    return [
      {
        id: member.id,
        mount: member.id,
        shape: member.body,
        sides: onBoth,
        made: made && body && isAsMade(body, made, place) ? made : null,
        isBuilt: member.stock === "made",
      },
    ];
  });
  return [...bodies, ...members];
}
