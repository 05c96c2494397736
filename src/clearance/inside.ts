/** Whether points lie inside a solid: within its closed shells taken together, so a hollow counts as outside. */
export interface InsideQuery {
  /** The point is in the tree's design axes; on the surface itself either answer may come. Open shells have no inside. */
  isInside(x: number, y: number, z: number): boolean;
}

/** For surfaces that do not cross: which body has a whole shell inside the other. Both: two hollow solids interlocked. */
export type Containment = "none" | "a-in-b" | "b-in-a";
