import { readFileSync } from "node:fs";
import { constants, deflateRawSync } from "node:zlib";
import { utf8 } from "../grammar/bytes.ts";

const SAVED = readFileSync(new URL("../../fixtures/scene-version-1.json", import.meta.url), "utf8");

/** The saved scene with one more part of that shape, and with these fields of the whole or, for records, these entries more. */
export function bodyScene(shape: object, more: Readonly<Record<string, unknown>> = {}): Uint8Array {
  const scene = JSON.parse(SAVED);
  if (Object.keys(shape).length > 0) scene.bodies.push({ id: "made", on: "chassis", shape });
  for (const [key, value] of Object.entries(more)) {
    scene[key] = typeof value === "object" ? { ...scene[key], ...value } : value;
  }
  return utf8(JSON.stringify(scene));
}

/** Ten megabytes of zeros, packed so that as many of them as are wanted can follow each other (RFC 1951, 3.2.3). */
const ZEROS = deflateRawSync(new Uint8Array(10_000_000), { finishFlush: constants.Z_FULL_FLUSH });
const NOTHING_MORE = Uint8Array.of(0x03, 0x00);

/** A zip of one file of so many times ten megabytes of zeros, whose list says that it has `told` bytes: APPNOTE 6.3.10, 4.3. */
export function zipOfZeros(tens: number, told: number): Uint8Array {
  const name = utf8("log.json");
  const packed = Buffer.concat([...Array.from({ length: tens }, () => ZEROS), NOTHING_MORE]);
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(8, 8);
  local.writeUInt32LE(packed.length, 18);
  local.writeUInt32LE(told, 22);
  local.writeUInt16LE(name.length, 26);
  const listed = Buffer.alloc(46);
  listed.writeUInt32LE(0x02014b50, 0);
  listed.writeUInt16LE(8, 10);
  listed.writeUInt32LE(packed.length, 20);
  listed.writeUInt32LE(told, 24);
  listed.writeUInt16LE(name.length, 28);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(46 + name.length, 12);
  end.writeUInt32LE(30 + name.length + packed.length, 16);
  return new Uint8Array(Buffer.concat([local, name, packed, listed, name, end]));
}
