import { distance, mirror } from "../maths/vec3.ts";
import type { SceneDocument } from "./document.ts";
import { apart, offLine, type Resolving, SAME_PLACE_MM, unitVector } from "./resolving.ts";
import type { AntiRollBar, Damper, Driveshaft, ShaftInner } from "./scene.ts";

type Part<Key extends keyof SceneDocument> = NonNullable<SceneDocument[Key]>;

/** Throws InputError `zero-length`, or `wrong-value` for lengths in the wrong order. */
export function resolveDamper(damper: Part<"damper">, context: Resolving): Damper {
  const { drawn, mounted, refuse } = context;
  const top = drawn(damper.top, "damper.top");
  const bottom = drawn(damper.bottom, "damper.bottom");
  apart(top, bottom, "damper.bottom", "the damper", context);
  const { closed_mm, open_mm, stopTouches_mm = null, stopSolid_mm = null, strapTight_mm = null } = damper;
  if (open_mm <= closed_mm) {
    throw refuse("wrong-value", "damper.open_mm", `is ${open_mm}`, `more than closed_mm, which is ${closed_mm}`);
  }
  if (stopSolid_mm !== null && stopTouches_mm !== null && stopSolid_mm > stopTouches_mm) {
    const wanted = `at most stopTouches_mm, which is ${stopTouches_mm}: a stop is touched before it is solid`;
    throw refuse("wrong-value", "damper.stopSolid_mm", `is ${stopSolid_mm}`, wanted);
  }
  if (strapTight_mm !== null && strapTight_mm <= closed_mm) {
    const wanted = `more than closed_mm, which is ${closed_mm}: the damper's length at which the strap is tight`;
    throw refuse("wrong-value", "damper.strapTight_mm", `is ${strapTight_mm}`, wanted);
  }
  const { springFree_mm = null, springSolid_mm = null, springAtRide_mm = null } = damper;
  springInOrder("springAtRide_mm", springAtRide_mm, "springFree_mm", springFree_mm);
  springInOrder("springAtRide_mm", springAtRide_mm, "the damper as drawn", distance(top, bottom));
  springInOrder("springSolid_mm", springSolid_mm, "springAtRide_mm", springAtRide_mm);
  springInOrder("springSolid_mm", springSolid_mm, "springFree_mm", springFree_mm);
  return {
    ...damper,
    top,
    topMounted: mounted(damper.top, "damper.top"),
    bottom,
    spring_mm: damper.spring_mm ?? null,
    springRate_N_per_mm: damper.springRate_N_per_mm ?? null,
    springFree_mm,
    springSolid_mm,
    springAtRide_mm,
    stopTouches_mm,
    stopSolid_mm,
    strapTight_mm,
  };

  function springInOrder(key: string, less_mm: number | null, moreKey: string, more_mm: number | null): void {
    if (less_mm === null || more_mm === null || less_mm < more_mm) return;
    throw refuse(
      "wrong-value",
      `damper.${key}`,
      `is ${less_mm}`,
      `less than ${moreKey}, which is ${Math.round(more_mm * 10) / 10}`,
    );
  }
}

export function resolveAntiRollBar(bar: Part<"antiRollBar">, context: Resolving): AntiRollBar {
  const { drawn, mounted, refuse } = context;
  const pivot = drawn(bar.pivot, "antiRollBar.pivot");
  const arm = drawn(bar.arm, "antiRollBar.arm");
  const pickup = drawn(bar.pickup, "antiRollBar.pickup");
  const axis = unitVector(bar.axis, "antiRollBar.axis", context);
  if (offLine(arm, pivot, axis) < SAME_PLACE_MM) {
    throw refuse(
      "zero-length",
      "antiRollBar.arm",
      "the end of the arm lies on the bar's own axis",
      "a place off the axis",
    );
  }
  apart(arm, pickup, "antiRollBar.pickup", "the bar's drop link", context);
  return { ...bar, pivot, pivotMounted: mounted(bar.pivot, "antiRollBar.pivot"), axis, arm, pickup };
}

/** The right inner end is the left one's image except for what `right` says, which is in car coordinates. */
export function resolveDriveshaft(shaft: Part<"driveshaft">, context: Resolving): Driveshaft {
  const { drawn, refuse } = context;
  const path = "driveshaft";
  const outer = drawn(shaft.outer, `${path}.outer`);
  const left: ShaftInner = {
    at: drawn(shaft.inner, `${path}.inner`),
    axis: unitVector(shaft.innerAxis, `${path}.innerAxis`, context),
    shortest_mm: shaft.shortest_mm ?? null,
    longest_mm: shaft.longest_mm ?? null,
    bar_mm: shaft.bar_mm ?? null,
    angleLimit_deg: shaft.innerAngleLimit_deg ?? null,
  };
  const own = shaft.right ?? {};
  const right: ShaftInner = {
    at: own.inner === undefined ? mirror(left.at) : drawn(own.inner, `${path}.right.inner`),
    axis:
      own.innerAxis === undefined ? mirror(left.axis) : unitVector(own.innerAxis, `${path}.right.innerAxis`, context),
    shortest_mm: own.shortest_mm ?? left.shortest_mm,
    longest_mm: own.longest_mm ?? left.longest_mm,
    bar_mm: own.bar_mm ?? left.bar_mm,
    angleLimit_deg: own.innerAngleLimit_deg ?? left.angleLimit_deg,
  };
  apart(left.at, outer, `${path}.outer`, "the driveshaft", context);
  apart(right.at, mirror(outer), `${path}.right.inner`, "the right driveshaft", context);
  inOrder(left, path);
  inOrder(right, `${path}.right`);
  return {
    outer,
    diameter_mm: shaft.diameter_mm,
    outerAngleLimit_deg: shaft.outerAngleLimit_deg ?? null,
    innerJoint: shaft.innerJoint ?? "constant velocity",
    outerJoint: shaft.outerJoint ?? "constant velocity",
    inner: { left, right },
  };

  function inOrder({ shortest_mm, longest_mm }: ShaftInner, where: string): void {
    if (shortest_mm === null || longest_mm === null || shortest_mm < longest_mm) return;
    throw refuse(
      "wrong-value",
      `${where}.longest_mm`,
      `is ${longest_mm}`,
      `more than shortest_mm, which is ${shortest_mm}`,
    );
  }
}
