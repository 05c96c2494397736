import { type Corner, solveCorner } from "../kinematics/corner.ts";
import type { LoadCase } from "../scene/loadRecords.ts";
import { barTorque_Nmm, dropLink_N, torqueOf, wheelForce_N } from "./cases.ts";
import type { LoadedState } from "./runLoads.ts";
import { standCorner } from "./stand.ts";

/**
 * One case at one travel, on the corner's side; `share`: how far the powertrain has got from rest to its pose. Null where the
 * corner does not reach the travel, and where the damper has no lever on the wheel. Throws InputError as runLoads does.
 */
export function loadsAt(
  corner: Corner,
  loadCase: LoadCase,
  at: { readonly travel_mm: number; readonly pose: string; readonly share?: number },
): LoadedState | null {
  const { scene, side } = corner;
  const force_N = wheelForce_N(loadCase, scene, side);
  const torque_Nmm = barTorque_Nmm(corner, loadCase.roll_deg);
  const { status, pose } = solveCorner(corner, at.travel_mm);
  const stand = status === "solved" ? standCorner(corner, pose, at.pose, at.share) : null;
  if (!stand) return null;
  const torque = torqueOf(loadCase, scene, force_N);
  const loads = stand.balance({ force_N, torque, dropLink_N: dropLink_N(corner, pose, torque_Nmm) });
  return { at: { side, case: loadCase.id, travel_mm: at.travel_mm }, loads };
}
