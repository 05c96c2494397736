import { t } from "../text/text.ts";
import "./view.css";
import { lazy, Suspense, useMemo, useRef } from "react";
import { CutFrame } from "../cut/CutFrame.tsx";
import { CutPanel } from "../cut/CutPanel.tsx";
import { useCutPlane } from "../cut/useCutPlane.ts";
import { EnvelopePanel } from "../envelope/EnvelopePanel.tsx";
import { useSwept } from "../envelope/useSwept.ts";
import { GearPanel } from "../gear/GearPanel.tsx";
import { GhostPanel } from "../ghosts/GhostPanel.tsx";
import { GhostTags } from "../ghosts/GhostTags.tsx";
import { useGhostView } from "../ghosts/useGhostView.ts";
import { LoadArrows } from "../loads/LoadArrows.tsx";
import { LoadsPanel } from "../loads/LoadsPanel.tsx";
import { tapArrow } from "../loads/tapArrow.ts";
import { useLoadsView } from "../loads/useLoadsView.ts";
import { MeasureMarks } from "../measure/MeasureMarks.tsx";
import { MeasurePanel } from "../measure/MeasurePanel.tsx";
import { pressMeasure } from "../measure/underPointer.ts";
import { useHover } from "../measure/useHover.ts";
import { useMeasureView } from "../measure/useMeasureView.ts";
import { PartHandles, useHandles } from "../parts/PartHandles.tsx";
import { PointMarks } from "../points/drag/PointMarks.tsx";
import { grabPoint, tapPoint } from "../points/drag/pointGrabs.ts";
import { usePointMarks } from "../points/drag/pointMarks.ts";
import { RoomMarks } from "../room/RoomMarks.tsx";
import { useRoomView } from "../room/useRoomView.ts";
import { ServiceMarks } from "../service/ServiceMarks.tsx";
import { useServiceView } from "../service/useServiceView.ts";
import { Guard } from "../shell/Guard.tsx";
import { isSetupOpen } from "../shell/places.ts";
import type { Layout } from "../shell/useLayout.ts";
import { useSize } from "../shell/useSize.ts";
import { viewHandle } from "../shell/viewHandle.ts";
import { app, useApp } from "../store/useApp.ts";
import { StudiesPanel } from "../studies/StudiesPanel.tsx";
import { ToolPanel, ToolsButton } from "../tools/ToolPanel.tsx";
import { useTools } from "../tools/toolsStore.ts";
import { fetchViewport } from "../viewport/fetchViewport.ts";
import type { Sight } from "../viewport/sight.ts";
import { Dock } from "./Dock.tsx";
import { GroupChips } from "./GroupChips.tsx";
import { LookButton } from "./LookButton.tsx";
import { NoView } from "./NoView.tsx";
import { setProjected, useProjected } from "./projected.ts";
import { useStage } from "./useStage.ts";
import { ViewLines } from "./ViewLines.tsx";
import { ViewNotes } from "./ViewNotes.tsx";
import { viewPlan } from "./viewPlan.ts";
import { WheelRules } from "./WheelRules.tsx";

/** Fetched after the shell has drawn itself: what draws in 3D is the largest part of the app. */
const Viewport = lazy(fetchViewport);
const CloseLookPlace = lazy(() => import("./CloseLookPlace.tsx").then((part) => ({ default: part.CloseLookPlace })));

/** The 3D view and what lies over it. */
export function CornerView({ layout }: { layout: Layout }) {
  const place = useRef<HTMLElement>(null);
  const size = useSize(place);
  const hasScene = useApp((state) => state.scene !== null);
  return (
    <section className="view" aria-label={t("corner.view")} ref={place}>
      {size && <Staged layout={layout} width={size.width} height={size.height} />}
      <div className="view-head">
        <GroupChips />
        {hasScene && <ToolsButton />}
        <LookButton layout={layout} />
      </div>
      <ViewNotes />
      {hasScene ? <Dock /> : <NoView />}
    </section>
  );
}

function withSight<T>(use: (sight: Sight) => T): T | null {
  const sight = viewHandle.current?.sight();
  return sight ? use(sight) : null;
}

const BARE_INSET = { top: 4, bottom: 4, left: 4, right: 4 };

/** What needs to know how large the view is. */
function Staged({ layout, width, height }: { layout: Layout; width: number; height: number }) {
  const stage = useStage();
  const points = usePointMarks();
  const bodies = useApp((state) => state.bodies);
  const show = useApp((state) => state.show);
  const theme = useApp((state) => state.theme);
  const stand = useApp((state) => state.stand);
  const travel_mm = useApp((state) => state.travel_mm);
  const scene = useApp((state) => state.scene);
  const closeLook = useApp((state) => state.closeLook);
  const touchPoint = useProjected((state) => (stage.touch ? state.points[0] : undefined));
  const { handles, marks: handleMarks } = useHandles(stage.poses);
  const measures = useMeasureView(stage);
  const cut = useCutPlane(stage);
  const ghosts = useGhostView();
  const swept = useSwept();
  const service = useServiceView(stage);
  const surfaces = useMemo(() => [...swept, ...service.tools], [swept, service.tools]);
  const loads = useLoadsView(stage.travel_mm);
  const room = useRoomView(stage.travel_mm.left);
  const isCorner = useApp((state) => state.place === "corner");
  const isSetup = useApp((state) => state.place === "setup");
  const measuring = useTools(({ open }) => open === "measure") ? measures.state : null;
  const hover = useHover(measuring && { stage, state: measuring, cut: cut.plane });
  const marks = useMemo(
    () => [
      ...stage.marks,
      ...handleMarks,
      ...points.map(({ at }) => at),
      ...measures.marks,
      ...cut.marks,
      ...ghosts.marks,
      ...loads.marks,
      ...room.marks,
      ...service.marks.map(({ at }) => at),
    ],
    [stage.marks, handleMarks, points, measures.marks, cut.marks, ghosts.marks, loads.marks, room.marks, service.marks],
  );
  // on a phone the set-up leaves the view small and free of rules
  const isBare = useApp((state) => state.place === "setup" && isSetupOpen(state.document)) && layout === "phone";
  const firstMeasureMark = stage.marks.length + handleMarks.length + points.length;
  const firstGhostMark = firstMeasureMark + measures.marks.length + cut.marks.length;
  const plan = useMemo(() => viewPlan(layout, width, height), [layout, width, height]);
  const looks = stage.pair !== null && stage.touch !== null && closeLook;
  const lens = plan.lens(touchPoint ?? { x: 0, y: height });
  return (
    <>
      <Guard>
        <Suspense fallback={null}>
          <Viewport
            ref={viewHandle}
            bodies={bodies}
            poses={service.poses}
            show={show}
            glassKeys={service.glassKeys}
            touchKeys={stage.touchKeys}
            heldIds={service.heldIds}
            patches={stage.patches}
            crossing={stage.crossing}
            theme={theme}
            stand={stand}
            onStandLeft={() => app.getState().setStand(null)}
            onHold={app.getState().hold}
            onGrab={(at) => withSight((sight) => grabPoint(at, points, sight)) ?? null}
            onTap={(at) => {
              if (!measuring)
                return (
                  withSight(
                    (sight) => room.tap(at, sight) || tapPoint(at, points, sight) || tapArrow(at, loads.arrows, sight),
                  ) ?? false
                );
              withSight((sight) => pressMeasure(at, sight, { stage, state: measuring, cut: cut.plane }));
              return true;
            }}
            onHover={(at) => {
              hover?.(at);
              if (room.places) withSight((sight) => room.hover(at, sight));
            }}
            cut={cut.plane}
            ghosts={ghosts.ghosts}
            swept={surfaces}
            places={room.places}
            marks={marks}
            onProject={setProjected}
            inset={isBare ? BARE_INSET : plan.inset}
          />
        </Suspense>
      </Guard>
      <ViewLines
        hasTouch={stage.touch !== null}
        lens={looks ? lens : null}
        flags={scene ? plan.flags(scene, travel_mm) : {}}
      />
      {points.length > 0 && (
        <PointMarks marks={points} offset={stage.marks.length + handleMarks.length} width={width} height={height} />
      )}
      {scene && <WheelRules layout={layout} top={plan.ruleTop} height={plan.ruleHeight} />}
      {measures.marks.length > 0 && (
        <MeasureMarks view={measures} offset={firstMeasureMark} width={width} height={height} />
      )}
      {cut.plane && <CutFrame plane={cut.plane} offset={firstMeasureMark + measures.marks.length} />}
      {ghosts.tags.length > 0 && <GhostTags tags={ghosts.tags} offset={firstGhostMark} />}
      {loads.arrows.length > 0 && (
        <LoadArrows view={loads} offset={firstGhostMark + ghosts.marks.length} width={width} height={height} />
      )}
      {room.marks.length > 0 && (
        <RoomMarks view={room} offset={firstGhostMark + ghosts.marks.length + loads.marks.length} />
      )}
      {service.marks.length > 0 && (
        <ServiceMarks
          marks={service.marks}
          offset={firstGhostMark + ghosts.marks.length + loads.marks.length + room.marks.length}
          width={width}
          height={height}
        />
      )}
      <ToolPanel
        panels={{
          measure: <MeasurePanel view={measures} />,
          section: <CutPanel view={cut} />,
          ghosts: <GhostPanel />,
          envelope: <EnvelopePanel />,
          // in the corner their tables take the place of the ledger, so that the car stays in view
          ...(isCorner
            ? {}
            : {
                loads: <LoadsPanel hasClose={layout === "phone"} />,
                gear: <GearPanel hasClose={layout === "phone"} />,
              }),
          ...(isSetup ? { studies: <StudiesPanel hasClose={layout === "phone"} /> } : {}),
        }}
      />
      <PartHandles handles={handles} firstMark={stage.marks.length} />
      <Guard>
        <Suspense fallback={null}>
          {looks && (
            <CloseLookPlace
              pair={stage.pair!}
              touch={stage.touch!}
              circle={lens}
              tagSide={lens.x < width / 2 ? "right" : "left"}
            />
          )}
        </Suspense>
      </Guard>
    </>
  );
}
