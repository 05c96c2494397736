const PAGE = 65_536;
/** Growing takes milliseconds however little it is: by no less than so much, and by a share of what is there. */
const LEAST_GROWTH = 4 << 20;
const GROWTH = 0.25;
const ALIGNMENT = 16;

interface Gap {
  at: number;
  size: number;
}

/** Blocks of a kernel's linear memory: first fit, freed blocks grow together again. */
export class LinearMemory {
  private readonly memory: WebAssembly.Memory;
  private readonly most: number;
  /** By address, never touching each other. */
  private readonly gaps: Gap[] = [];
  private end: number;

  /** Hands out what lies behind `start`, growing the memory to `most` bytes at the utmost. */
  constructor(memory: WebAssembly.Memory, start: number, most: number) {
    this.memory = memory;
    this.most = most;
    this.end = aligned(start);
  }

  /** The address of a free block; null if the memory may not or cannot grow that far. Views on the buffer may be void afterwards. */
  take(size: number): number | null {
    const wanted = aligned(size);
    for (let i = 0; i < this.gaps.length; i++) {
      const gap = this.gaps[i]!;
      if (gap.size < wanted) continue;
      const { at } = gap;
      gap.at += wanted;
      gap.size -= wanted;
      if (gap.size === 0) this.gaps.splice(i, 1);
      return at;
    }
    const at = this.end;
    if (!this.reach(at + wanted)) return null;
    this.end = at + wanted;
    return at;
  }

  /** Gives back a block that was taken with this size. */
  free(at: number, size: number): void {
    const wanted = aligned(size);
    let i = this.gaps.findIndex((gap) => gap.at > at);
    if (i < 0) i = this.gaps.length;
    this.gaps.splice(i, 0, { at, size: wanted });
    this.join(i);
    if (i > 0) this.join(i - 1);
    const last = this.gaps.at(-1)!;
    if (last.at + last.size === this.end) {
      this.end = last.at;
      this.gaps.pop();
    }
  }

  private join(i: number): void {
    const gap = this.gaps[i]!;
    const next = this.gaps[i + 1];
    if (next === undefined || gap.at + gap.size !== next.at) return;
    gap.size += next.size;
    this.gaps.splice(i + 1, 1);
  }

  private reach(end: number): boolean {
    const missing = end - this.memory.buffer.byteLength;
    if (missing <= 0) return true;
    if (end > this.most) return false;
    const size = this.memory.buffer.byteLength;
    const ample = Math.min(Math.max(missing, LEAST_GROWTH, GROWTH * size), this.most - size);
    return this.grow(ample) || (ample > missing && this.grow(missing));
  }

  private grow(bytes: number): boolean {
    try {
      this.memory.grow(Math.ceil(bytes / PAGE));
    } catch (error) {
      // the host has no more to give
      if (error instanceof RangeError) return false;
      throw error;
    }
    return true;
  }
}

function aligned(size: number): number {
  return Math.ceil(size / ALIGNMENT) * ALIGNMENT;
}
