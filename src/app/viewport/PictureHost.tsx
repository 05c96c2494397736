import { useFrame, useThree } from "@react-three/fiber";
import { useEffect, useLayoutEffect, useRef } from "react";
import { Picture } from "./picture.ts";
import type { SecondViews } from "./secondView.ts";

/** Ties the picture to fiber's canvas: its renderer, its size, its frames. */
export function PictureHost({
  seconds,
  onReady,
  onLost,
  drawsOver,
}: {
  seconds: SecondViews;
  onReady(picture: Picture | null): void;
  onLost(lost: boolean): void;
  drawsOver: boolean;
}) {
  const { gl, invalidate, set, scene } = useThree();
  const { width, height } = useThree((state) => state.size);
  const dpr = useThree((state) => state.viewport.dpr);
  const pictureRef = useRef<Picture | null>(null);

  useLayoutEffect(() => {
    const picture = new Picture(gl, () => invalidate(), seconds);
    pictureRef.current = picture;
    // fiber must not stretch a camera whose lens the picture sets
    set({ camera: Object.assign(picture.camera, { manual: true }) });
    onReady(picture);
    return () => {
      pictureRef.current = null;
      onReady(null);
      picture.dispose();
    };
  }, [gl, invalidate, seconds, set, onReady]);

  useLayoutEffect(() => pictureRef.current?.setSize({ width, height }, dpr), [width, height, dpr]);

  useLayoutEffect(() => {
    const picture = pictureRef.current;
    if (picture !== null) picture.drawOver = drawsOver ? () => gl.render(scene, picture.camera) : null;
  }, [drawsOver, gl, scene]);

  useEffect(() => {
    const canvas = gl.domElement;
    const lost = () => onLost(true);
    const restored = () => {
      pictureRef.current?.restored();
      onLost(false);
    };
    canvas.addEventListener("webglcontextlost", lost);
    canvas.addEventListener("webglcontextrestored", restored);
    return () => {
      canvas.removeEventListener("webglcontextlost", lost);
      canvas.removeEventListener("webglcontextrestored", restored);
    };
  }, [gl, onLost]);

  useFrame(() => {
    const picture = pictureRef.current;
    picture?.draw();
    if (picture?.hasBodies) markFirstPicture();
  }, 1);
  return null;
}

let isMarked = false;

/** For the browser's own tools: when the visit first showed a car. */
function markFirstPicture(): void {
  if (isMarked) return;
  isMarked = true;
  performance.mark("first picture");
}
