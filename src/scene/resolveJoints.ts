import { normalise, subtract, type Vec3 } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";
import { jointNames, partOfJoint } from "./jointNames.ts";
import { nearestOf } from "./nearest.ts";
import { shortQuote } from "./path.ts";
import { type Resolving, unitVector } from "./resolving.ts";
import type { JointFit } from "./scene.ts";

/** Throws InputError `missing-id`, `duplicate-id`, `zero-length`, or `wrong-value` for limits that do not fit the kind, and for a joint whose axis nobody tells. */
export function resolveJoints(document: SceneDocument, context: Resolving): JointFit[] {
  const { joints = [] } = document;
  const { refuse } = context;
  // the driveshaft's joints have limits of their own
  const known = jointNames(document).filter((joint) => partOfJoint(joint) !== "driveshaft");
  return joints.map((fit, i): JointFit => {
    const path = `joints[${i}]`;
    const { joint, kind } = fit;
    if (!known.includes(joint)) {
      const nearest = nearestOf(joint, known);
      const wanted = nearest ? `${nearest}?` : `one of ${known.join(", ")}`;
      throw refuse("missing-id", `${path}.joint`, `${shortQuote(joint)} names nothing here`, wanted);
    }
    if (joints.findIndex((other) => other.joint === joint) < i) {
      const wrong = `${shortQuote(joint)} stands here already`;
      throw refuse("duplicate-id", `${path}.joint`, wrong, "one record a joint");
    }
    if (fit.twist_deg !== undefined && kind !== "bush") {
      const wrong = `a ${kind} turns freely about its bolt`;
      throw refuse("wrong-value", `${path}.twist_deg`, wrong, "tilt_deg, or the kind bush");
    }
    const axis = fit.axis ? unitVector(fit.axis, `${path}.axis`, context) : toldAxis(document, joint, context);
    if (!axis) {
      const wrong = `nothing tells which way the bolt of ${shortQuote(joint)} points`;
      throw refuse("wrong-value", path, wrong, 'its axis, such as "axis": [1, 0, 0] for a bolt fore and aft');
    }
    return {
      joint,
      kind,
      axis,
      tilt_deg: fit.tilt_deg ?? null,
      twist_deg: fit.twist_deg ?? null,
      crooked_deg: fit.crooked_deg ?? 0,
    };
  });
}

/** The axis that the scene tells of a joint elsewhere: a bush axis, an inboard line, a leg's or the bar's own. */
function toldAxis(document: SceneDocument, joint: string, context: Resolving): Vec3 | null {
  const { drawn } = context;
  if (joint === "bar.pivot") return unitVector(document.antiRollBar!.axis, "antiRollBar.axis", context);
  const index = document.members.findIndex(({ id }) => id === partOfJoint(joint));
  const member = document.members[index];
  const path = `members[${index}]`;
  if (member?.kind === "link" && member.bushAxis && joint.endsWith(".inboard"))
    return unitVector(member.bushAxis, `${path}.bushAxis`, context);
  if ((member?.kind === "wishbone" || member?.kind === "hinge") && !joint.endsWith(".outboard"))
    return normalise(subtract(drawn(member.front, `${path}.front`), drawn(member.rear, `${path}.rear`)));
  if (member?.kind === "strut")
    return normalise(subtract(drawn(member.top, `${path}.top`), drawn(member.bottom, `${path}.bottom`)));
  return null;
}
