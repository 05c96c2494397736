import { useEffect } from "react";
import { create } from "zustand";
import { useApp } from "../store/useApp.ts";

/** Whether the browser has refused what was asked, until it gives it. */
export const useAwakeRefused = create(() => ({ refused: false }));

export function canStayAwake(): boolean {
  return "wakeLock" in navigator;
}

/**
 * Keeps the screen awake while the builder wants it. The browser lets go whenever the page is hidden, and may refuse, on a
 * low battery for one; it is asked again each time the page is shown.
 */
export function useAwake(): void {
  const wanted = useApp((state) => state.stayAwake && state.ready);
  useEffect(() => {
    if (!wanted || !canStayAwake()) return;
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== "visible" || (lock && !lock.released)) return;
      try {
        const given = await navigator.wakeLock.request("screen");
        if (over) void given.release();
        else lock = given;
        useAwakeRefused.setState({ refused: false });
      } catch {
        useAwakeRefused.setState({ refused: true });
      }
    };
    void ask();
    document.addEventListener("visibilitychange", ask);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", ask);
      void lock?.release();
    };
  }, [wanted]);
}
