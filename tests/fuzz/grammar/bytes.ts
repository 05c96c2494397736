import fc from "fast-check";

/** Numbers at which counts, sizes and signs go wrong. */
const ODD_WORDS = [0, 1, 2, 0x7f, 0xff, 0x7fff, 0xffff, 0x7fffffff, 0x80000000, 0xffffffff, 1_000_000_000, 0x7f800000];
const ODD_BYTES = [0, 1, 9, 10, 13, 32, 34, 39, 43, 45, 46, 47, 48, 57, 60, 92, 101, 123, 125, 127, 128, 192, 255];

/** Share of the file at which something is done, so that it fits a file of any length. */
const place = fc.double({ min: 0, max: 1, noNaN: true });

type Change = (bytes: Uint8Array) => Uint8Array;

const at = (bytes: Uint8Array, share: number) => Math.min(bytes.length, Math.floor(share * (bytes.length + 1)));

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let from = 0;
  for (const part of parts) {
    whole.set(part, from);
    from += part.length;
  }
  return whole;
}

const overwrite = (share: number, by: Uint8Array): Change => {
  return (bytes) => {
    const from = at(bytes, share);
    const changed = bytes.slice();
    changed.set(by.subarray(0, Math.max(0, bytes.length - from)), from);
    return changed;
  };
};

function word(value: number, isLittle: boolean): Uint8Array {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, value >>> 0, isLittle);
  return bytes;
}

function changes(tokens: readonly string[]): fc.Arbitrary<Change> {
  const token = fc.constantFrom(...tokens).map((text) => new TextEncoder().encode(text));
  const anyBytes = fc.uint8Array({ minLength: 1, maxLength: 12 });
  const flip = fc.tuple(place, fc.nat(7)).map(([share, bit]): Change => {
    return (bytes) => {
      const changed = bytes.slice();
      const i = at(bytes, share);
      if (i < changed.length) changed[i]! ^= 1 << bit;
      return changed;
    };
  });
  const put = fc
    .tuple(
      place,
      fc.oneof(
        fc.constantFrom(...ODD_BYTES).map((byte) => Uint8Array.of(byte)),
        anyBytes,
      ),
    )
    .map(([share, by]) => overwrite(share, by));
  const putWord = fc
    .tuple(place, fc.oneof(fc.constantFrom(...ODD_WORDS), fc.nat(0xffffffff)), fc.boolean(), fc.boolean())
    .map(([share, value, isLittle, isHead]) => overwrite(isHead ? share / 20 : share, word(value, isLittle)));
  const insert = fc.tuple(place, fc.oneof({ weight: 3, arbitrary: token }, { weight: 1, arbitrary: anyBytes })).map(
    ([share, by]): Change =>
      (bytes) => {
        const i = at(bytes, share);
        return joined(bytes.subarray(0, i), by, bytes.subarray(i));
      },
  );
  const remove = fc.tuple(place, fc.nat(200)).map(
    ([share, count]): Change =>
      (bytes) => {
        const i = at(bytes, share);
        return joined(bytes.subarray(0, i), bytes.subarray(i + count));
      },
  );
  const cut = place.map(
    (share): Change =>
      (bytes) =>
        bytes.slice(0, at(bytes, share)),
  );
  const repeat = fc.tuple(place, fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 60 })).map(
    ([share, length, times]): Change =>
      (bytes) => {
        const i = at(bytes, share);
        const piece = bytes.subarray(i, i + length);
        return joined(bytes.subarray(0, i), ...Array.from({ length: times }, () => piece), bytes.subarray(i));
      },
  );
  const swap = fc.tuple(place, place, fc.nat(64)).map(
    ([one, other, length]): Change =>
      (bytes) => {
        const from = at(bytes, one);
        return overwrite(other, bytes.slice(from, from + length))(bytes);
      },
  );
  return fc.oneof(flip, put, putWord, insert, insert, remove, cut, repeat, swap);
}

/** One of the given files with one to six things done to it; `tokens` are words that mean something in such a file. */
export function spoilt(files: readonly Uint8Array[], tokens: readonly string[]): fc.Arbitrary<Uint8Array> {
  const one = changes(tokens).map((change) => [change]);
  return fc
    .tuple(
      fc.constantFrom(...files),
      fc.oneof(
        { weight: 2, arbitrary: one },
        { weight: 1, arbitrary: fc.array(changes(tokens), { minLength: 2, maxLength: 6 }) },
      ),
    )
    .map(([file, all]) => all.reduce((bytes, change) => change(bytes), file));
}

export const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A GLB of any JSON beside 96 bytes of numbers: glTF 2.0, 4.4 (binary layout). */
export function bytesOfGlb(json: string): Uint8Array {
  const text = utf8(json);
  const textBytes = Math.ceil(text.length / 4) * 4;
  const bytes = new Uint8Array(20 + textBytes + 8 + 96).fill(0x20, 20, 20 + textBytes);
  const view = new DataView(bytes.buffer);
  for (const [i, word] of [0x46546c67, 2, bytes.length, textBytes, 0x4e4f534a].entries())
    view.setUint32(4 * i, word, true);
  bytes.set(text, 20);
  view.setUint32(20 + textBytes, 96, true);
  view.setUint32(24 + textBytes, 0x004e4942, true);
  for (let i = 0; i < 12; i++) view.setFloat32(28 + textBytes + 4 * i, (i * 7) % 5, true);
  for (let i = 12; i < 24; i++) view.setUint32(28 + textBytes + 4 * i, i % 4, true);
  return bytes;
}
