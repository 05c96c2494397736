/** Whether memory can be shared with workers here: only on a page that its server isolates from other origins. */
export function canShareMemory(): boolean {
  return typeof SharedArrayBuffer !== "undefined" && globalThis.crossOriginIsolated === true;
}

type Elements = Float64Array | Float32Array | Uint32Array | Int32Array | Uint16Array | Uint8Array;

/** Start of each array, so that every kind of number may begin there. */
const ALIGNMENT_BYTES = 8;

/**
 * The same record with all its arrays of numbers in shared memory, in one piece but for those that lie there already, so
 * that another thread gets them without a copy. Plain objects and lists are walked; what occurs twice stays one.
 */
export function inSharedMemory<T>(record: T): T {
  const arrays = new Map<Elements, Elements>();
  let size = 0;
  walk(record, (array) => {
    if (!arrays.has(array)) size += roundUp(array.byteLength);
    arrays.set(array, array);
    return array;
  });
  const memory = new SharedArrayBuffer(size);
  let at = 0;
  for (const array of arrays.keys()) {
    const Kind = array.constructor as new (memory: SharedArrayBuffer, at: number, length: number) => Elements;
    const shared = new Kind(memory, at, array.length);
    shared.set(array);
    arrays.set(array, shared);
    at += roundUp(array.byteLength);
  }
  return walk(record, (array) => arrays.get(array)!) as T;
}

function walk(value: unknown, replace: (array: Elements) => Elements): unknown {
  if (ArrayBuffer.isView(value)) return value.buffer instanceof SharedArrayBuffer ? value : replace(value as Elements);
  if (Array.isArray(value)) return value.map((item) => walk(item, replace));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, walk(item, replace)]));
}

function roundUp(bytes: number): number {
  return Math.ceil(bytes / ALIGNMENT_BYTES) * ALIGNMENT_BYTES;
}
