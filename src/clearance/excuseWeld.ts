/** Grows a list of float32 vertices in which equal positions, of those that it was told of, are one vertex. */
export class VertexWeld {
  private readonly coordinates: number[];
  private readonly known = new Map<string, number>();

  /** Starts from vertices that are there already (3 coordinates each), none of which is known by its place yet. */
  constructor(positions: Float32Array) {
    this.coordinates = Array.from(positions);
  }

  /** Makes a vertex that is there known by its place. */
  know(vertex: number): void {
    const { coordinates } = this;
    const name = nameOf(coordinates[3 * vertex]!, coordinates[3 * vertex + 1]!, coordinates[3 * vertex + 2]!);
    if (!this.known.has(name)) this.known.set(name, vertex);
  }

  /** The vertex at a place, rounded to float32; a new one if none is known there. */
  at(place: readonly [number, number, number]): number {
    const x = Math.fround(place[0]);
    const y = Math.fround(place[1]);
    const z = Math.fround(place[2]);
    const name = nameOf(x, y, z);
    const found = this.known.get(name);
    if (found !== undefined) return found;
    const vertex = this.coordinates.length / 3;
    this.coordinates.push(x, y, z);
    this.known.set(name, vertex);
    return vertex;
  }

  positions(): Float32Array {
    return Float32Array.from(this.coordinates);
  }
}

/** −0 and 0 are one place. */
function nameOf(x: number, y: number, z: number): string {
  return `${x + 0},${y + 0},${z + 0}`;
}
