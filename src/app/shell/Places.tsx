import { CornerSheet } from "../corner/CornerSheet.tsx";
import { CornerView } from "../corner/CornerView.tsx";
import { ThumbBar } from "../corner/ThumbBar.tsx";
import { CurveDrawer } from "../curves/CurveDrawer.tsx";
import { LogPlace } from "../log/LogPlace.tsx";
import { PointDrawer } from "../points/PointDrawer.tsx";
import { PointsPlaceSheet } from "../points/PointsPlaceSheet.tsx";
import { SetupSheet } from "../setup/SetupSheet.tsx";
import { useApp } from "../store/useApp.ts";
import { Bench } from "./Bench.tsx";
import { NoScene } from "./NoScene.tsx";
import { isSetupOpen } from "./places.ts";
import type { Layout } from "./useLayout.ts";

/** What the chosen place shows. Corner and Points & parts share one view, which stays as it is from one to the other. */
export function Places({ layout }: { layout: Layout }) {
  const ready = useApp((state) => state.ready);
  const isOpen = useApp((state) => state.document !== null);
  const chosen = useApp((state) => state.place);
  const hasSetup = useApp((state) => isSetupOpen(state.document));
  const place = chosen === "setup" && !hasSetup ? "corner" : chosen;
  if (ready && place === "log") return <LogPlace />;
  if (!isOpen) return <NoScene loading={!ready} />;
  const wide = layout === "wide";
  const corner = place === "corner";
  return (
    <Bench
      view={<CornerView layout={layout} />}
      sheet={
        place === "setup" ? (
          <SetupSheet />
        ) : corner ? (
          <CornerSheet layout={layout} />
        ) : (
          <PointsPlaceSheet layout={layout} />
        )
      }
      drawer={wide && place !== "setup" && (corner ? <CurveDrawer /> : <PointDrawer />)}
      thumbs={!wide && corner && <ThumbBar layout={layout} />}
    />
  );
}
