import { type RefObject, useLayoutEffect, useState } from "react";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The element's inner size in whole px, followed; null before it is laid out. */
export function useSize(element: RefObject<HTMLElement | null>): Size | null {
  const [size, setSize] = useState<Size | null>(null);
  useLayoutEffect(() => {
    const target = element.current;
    if (!target) return;
    const measure = (): void => {
      const [width, height] = [target.clientWidth, target.clientHeight];
      setSize((before) => (before?.width === width && before.height === height ? before : { width, height }));
    };
    const observer = new ResizeObserver(measure);
    observer.observe(target);
    measure();
    return () => observer.disconnect();
  }, [element]);
  return size;
}
