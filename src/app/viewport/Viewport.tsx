import { Canvas } from "@react-three/fiber";
import {
  type ReactNode,
  type Ref,
  useCallback,
  useEffect,
  useImperativeHandle,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import type { ModelBody, PartGroup } from "../../check/model.ts";
import type { Pose } from "../../maths/pose.ts";
import type { Vec3 } from "../../maths/vec3.ts";
import type { Show, Stand, Theme } from "../store/state.ts";
import { t } from "../text/text.ts";
import type { Cut } from "./cut.ts";
import type { Inset } from "./framing.ts";
import { NO_INSET } from "./framing.ts";
import { type Grab, type GrabPlace, listenForGestures } from "./gestures.ts";
import type { Ghost } from "./ghostLayer.ts";
import type { ProjectedPoint } from "./marks.ts";
import { PictureHost } from "./PictureHost.tsx";
import { PictureMessage } from "./PictureMessage.tsx";
import type { ShownPatch } from "./patchLayer.ts";
import type { Focus, Picture } from "./picture.ts";
import type { ShownPlaces } from "./placeLayer.ts";
import { type SecondView, SecondViews } from "./secondView.ts";
import type { Sight } from "./sight.ts";
import type { SnapshotOptions } from "./snapshot.ts";
import type { SweptSurface } from "./sweptLayer.ts";
import { createRenderer } from "./webgl.ts";

export interface ViewportProps {
  readonly bodies: readonly ModelBody[];
  /** By body key, car coordinates. A new map moves matrices, nothing else. */
  readonly poses: ReadonlyMap<string, Pose>;
  readonly show: Readonly<Record<PartGroup, Show>>;
  /** Bodies that turn to glass because they stand before a chosen touch. */
  readonly glassKeys: ReadonlySet<string>;
  /** Bodies of a chosen touch: glass where their group is off. */
  readonly touchKeys?: ReadonlySet<string>;
  readonly heldIds: ReadonlySet<string>;
  readonly patches: readonly ShownPatch[];
  /** Polylines of car coordinates at the shown state. */
  readonly crossing: readonly Float32Array[];
  /** What is cut away of the car; null: nothing. */
  readonly cut?: Cut | null;
  /** Parts at other states, MOST_GHOSTS at the most. */
  readonly ghosts?: readonly Ghost[];
  readonly swept?: readonly SweptSurface[];
  /** A cloud of places; null: none. */
  readonly places?: ShownPlaces | null;
  readonly theme: Theme;
  /** null: stay where the camera is. */
  readonly stand: Stand | null;
  onStandLeft(): void;
  onHold(bodyId: string | null): void;
  /** What the shell draws over the picture may take hold of the pointer (gestures.ts). */
  onGrab?(at: GrabPlace): Grab | null;
  onTap?(at: GrabPlace): boolean;
  onHover?(at: GrabPlace): void;
  /** Points of the car whose place in the picture the shell wants. */
  readonly marks?: readonly Vec3[];
  /** CSS px from the picture's upper left, after each frame in which they changed; in the order of `marks`. */
  onProject?(points: readonly ProjectedPoint[]): void;
  /** Margins that the shell covers, CSS px: stands frame the car between them. */
  readonly inset?: Inset;
  readonly label?: string;
  /** three objects drawn over the car with its depth. */
  readonly children?: ReactNode;
  readonly ref?: Ref<ViewportHandle>;
}

export interface ViewportHandle {
  /** A PNG of its own size; the picture on the screen stays. Rejects where there is no 3D picture. */
  snapshot(width: number, height: number, options?: SnapshotOptions): Promise<Blob>;
  /** Degrees to the left and up. */
  orbitBy(azimuth_deg: number, elevation_deg: number): void;
  /** Below 1 comes nearer. */
  zoomBy(factor: number): void;
  frame(view: Stand | Focus): void;
  /** Moves the bodies ahead of the property, which is to follow. */
  setPoses(poses: ReadonlyMap<string, Pose>): void;
  /** null while there is no picture. */
  sight(): Sight | null;
  /** Keeps a second picture drawn in a canvas (CloseLook). */
  addView(canvas: HTMLCanvasElement): SecondView;
}

/** Behind the picture while there is none. */
const BACKDROP: Readonly<Record<Theme, string>> = { daylight: "#EEF1F0", garage: "#13181A" };
const NO_GHOSTS: readonly Ghost[] = [];
const NO_SURFACES: readonly SweptSurface[] = [];
const NO_MARKS: readonly Vec3[] = [];
const NO_KEYS: ReadonlySet<string> = new Set();
const NOTHING = () => {};

export function Viewport(props: ViewportProps) {
  const { bodies, poses, show, glassKeys, heldIds, patches, crossing, theme, stand, children } = props;
  const {
    marks = NO_MARKS,
    touchKeys = NO_KEYS,
    inset = NO_INSET,
    cut = null,
    ghosts = NO_GHOSTS,
    swept = NO_SURFACES,
    places = null,
    label = t("viewport.label"),
    onProject = NOTHING,
    ref,
  } = props;
  const [picture, setPicture] = useState<Picture | null>(null);
  const [supported, setSupported] = useState(() => typeof WebGL2RenderingContext !== "undefined");
  const [lost, setLost] = useState(false);
  const [attempt, setAttempt] = useState(0);
  const [seconds] = useState(() => new SecondViews());
  const frameRef = useRef<HTMLDivElement>(null);
  const pictureRef = useRef<Picture | null>(null);
  const events = useRef(props);
  useLayoutEffect(() => {
    events.current = props;
    pictureRef.current = picture;
  });

  // in this order: poses and patches refer to bodies, stands frame them
  useLayoutEffect(() => picture?.setShow(show, glassKeys, touchKeys), [picture, show, glassKeys, touchKeys]);
  useLayoutEffect(() => picture?.setTheme(theme), [picture, theme]);
  useLayoutEffect(() => picture?.setInset(inset), [picture, inset]);
  useLayoutEffect(() => picture?.setBodies(bodies), [picture, bodies]);
  useLayoutEffect(() => picture?.setPoses(poses), [picture, poses]);
  useLayoutEffect(() => picture?.setHeld(heldIds), [picture, heldIds]);
  useLayoutEffect(() => picture?.setPatches(patches), [picture, patches]);
  useLayoutEffect(() => picture?.setCrossing(crossing), [picture, crossing]);
  useLayoutEffect(() => picture?.setCut(cut), [picture, cut]);
  useLayoutEffect(() => picture?.setGhosts(ghosts), [picture, ghosts]);
  useLayoutEffect(() => picture?.setSwept(swept), [picture, swept]);
  useLayoutEffect(() => picture?.setPlaces(places), [picture, places]);
  useLayoutEffect(() => picture?.setMarks(marks), [picture, marks]);
  useLayoutEffect(() => {
    if (picture !== null) picture.marks.onProject = onProject;
  }, [picture, onProject]);
  const standShown = useRef<Picture | null>(null);
  const waitingView = useRef<Stand | Focus | null>(null);
  useLayoutEffect(() => {
    if (picture === null) return;
    picture.setStand(stand, standShown.current !== picture);
    standShown.current = picture;
    if (waitingView.current !== null) picture.frame(waitingView.current, true);
    waitingView.current = null;
  }, [picture, stand]);

  useEffect(() => {
    const element = frameRef.current;
    if (element === null) return;
    return listenForGestures(element, () => pictureRef.current, {
      onMoved: () => {
        pictureRef.current?.setStand(null, true);
        if (events.current.stand !== null) events.current.onStandLeft();
      },
      onHold: (id) => events.current.onHold(id),
      onGrab: (at) => events.current.onGrab?.(at) ?? null,
      onTap: (at) => events.current.onTap?.(at) ?? false,
      onHover: (at) => events.current.onHover?.(at),
    });
  }, []);

  useImperativeHandle(ref, () => {
    const byHand = (move: (shown: Picture) => void) => {
      const shown = pictureRef.current;
      if (shown === null) return;
      move(shown);
      shown.setStand(null, true);
      shown.moved();
      if (events.current.stand !== null) events.current.onStandLeft();
    };
    return {
      snapshot: async (width, height, options = {}) => {
        const shown = pictureRef.current;
        if (shown === null) throw new Error(t("card.trouble.noPicture"));
        return shown.snapshot(width, height, options);
      },
      orbitBy: (azimuth_deg, elevation_deg) =>
        byHand(({ rig }) =>
          rig.orbit(rig.place.target, (azimuth_deg * Math.PI) / 180, (elevation_deg * Math.PI) / 180),
        ),
      zoomBy: (factor) => byHand(({ rig }) => rig.zoom(rig.place.target, factor)),
      frame: (view) => {
        if (pictureRef.current === null) waitingView.current = view;
        else pictureRef.current.frame(view, false);
        if (typeof view !== "string" && events.current.stand !== null) events.current.onStandLeft();
      },
      setPoses: (shown) => pictureRef.current?.setPoses(shown),
      sight: () => pictureRef.current?.sight() ?? null,
      addView: (canvas) => seconds.add(canvas),
    };
  }, [seconds]);

  const onLost = useCallback((gone: boolean) => setLost(gone), []);
  const again = () => {
    setLost(false);
    setAttempt((count) => count + 1);
  };

  // the same element as long as nothing of it changes: a canvas draws a tree of its own whenever it is drawn anew
  const canvas = useMemo(
    () => (
      <Canvas
        key={attempt}
        frameloop="demand"
        dpr={[1, 2]}
        flat
        gl={(defaults) => createRenderer(defaults, () => setSupported(false))}
        style={{ position: "absolute", inset: 0, visibility: lost ? "hidden" : "visible" }}
      >
        <PictureHost seconds={seconds} onReady={setPicture} onLost={onLost} drawsOver={children !== undefined} />
        {children}
      </Canvas>
    ),
    [attempt, lost, seconds, onLost, children],
  );

  return (
    <div
      ref={frameRef}
      role="img"
      aria-label={label}
      style={{
        position: "absolute",
        inset: 0,
        overflow: "hidden",
        touchAction: "none",
        cursor: "grab",
        userSelect: "none",
        background: BACKDROP[theme],
      }}
    >
      {supported && canvas}
      {!supported && (
        <PictureMessage theme={theme} title={t("viewport.none.title")}>
          {t("viewport.none.told")}
        </PictureMessage>
      )}
      {lost && (
        <PictureMessage
          theme={theme}
          title={t("viewport.lost.title")}
          action={{ label: t("viewport.lost.again"), run: again }}
        >
          {t("viewport.lost.told")}
        </PictureMessage>
      )}
    </div>
  );
}
