import type { LoadedAt } from "../../loads/runLoads.ts";
import { app } from "../store/useApp.ts";
import { useLoadsLook } from "./loadsStore.ts";

/** Shows the case, the side and the travel. */
export function goThere({ side, case: caseId, travel_mm }: LoadedAt): void {
  app.getState().setTravel(side, travel_mm);
  useLoadsLook.setState({ caseId, side });
}
