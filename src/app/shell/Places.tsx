import { CornerSheet } from "../corner/CornerSheet.tsx";
import { CornerView } from "../corner/CornerView.tsx";
import { ThumbBar } from "../corner/ThumbBar.tsx";
import { CurveDrawer } from "../curves/CurveDrawer.tsx";
import { LogPlace } from "../log/LogPlace.tsx";
import { PointDrawer } from "../points/PointDrawer.tsx";
import { PointsPlaceSheet } from "../points/PointsPlaceSheet.tsx";
import { useApp } from "../store/useApp.ts";
import { Bench } from "./Bench.tsx";
import { NoScene } from "./NoScene.tsx";
import type { Layout } from "./useLayout.ts";

/** What the chosen place shows. */
export function Places({ layout }: { layout: Layout }) {
  const ready = useApp((state) => state.ready);
  const place = useApp((state) => state.place);
  const isOpen = useApp((state) => state.document !== null);
  if (!isOpen && place !== "log") return <NoScene loading={!ready} />;
  const wide = layout === "wide";
  if (place === "log") return <LogPlace />;
  if (place === "points") {
    return (
      <Bench
        view={<CornerView layout={layout} />}
        sheet={<PointsPlaceSheet layout={layout} />}
        drawer={wide && <PointDrawer />}
      />
    );
  }
  return (
    <Bench
      view={<CornerView layout={layout} />}
      sheet={<CornerSheet layout={layout} />}
      drawer={wide && <CurveDrawer />}
      thumbs={!wide && <ThumbBar />}
    />
  );
}
