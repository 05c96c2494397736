/** Lets go of what was put into the map longest ago until it holds no more than `most`. */
export function dropOldest<K>(kept: Map<K, unknown>, most: number): void {
  for (const key of kept.keys()) {
    if (kept.size <= most) return;
    kept.delete(key);
  }
}
