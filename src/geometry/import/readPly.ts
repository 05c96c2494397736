import { shortQuote } from "../../scene/path.ts";
import { ByteScanner } from "./byteScanner.ts";
import { Growing } from "./growing.ts";
import { checkTriangleCount, MOST_TRIANGLES, meshFault } from "./meshFault.ts";
import { type ReadShare, TELL_EVERY } from "./readShare.ts";

interface PlyProperty {
  readonly name: string;
  readonly type: NumberType;
  /** Type of the length before a list; null: one value. */
  readonly countType: NumberType | null;
}
interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: PlyProperty[];
}
interface PlyHeader {
  readonly format: string;
  readonly elements: PlyElement[];
  readonly bodyStart: number;
}
type NumberType = keyof typeof BYTES;
type NextNumber = (type: NumberType) => number;

/** More than all corners of the most triangles. */
const MOST_VERTICES = 3 * MOST_TRIANGLES;
const BYTES = { int8: 1, uint8: 1, int16: 2, uint16: 2, int32: 4, uint32: 4, float32: 4, float64: 8 } as const;
const OLD_NAMES: Readonly<Record<string, NumberType>> = {
  char: "int8",
  uchar: "uint8",
  short: "int16",
  ushort: "uint16",
  int: "int32",
  uint: "uint32",
  float: "float32",
  double: "float64",
};

/**
 * Corners of the triangles, 9 coordinates each, in the file's unit (ASCII, binary of either byte order). Faces of more
 * than three corners become fans. Written here because the general loader drops faces of five corners and the rest of
 * a file that breaks off without a word.
 */
export function readPly(bytes: Uint8Array, fileName: string, onShare?: ReadShare): Float64Array {
  const header = readHeader(bytes, fileName);
  const faceCount = header.elements.find(({ name }) => name === "face")?.count ?? 0;
  if (faceCount === 0) throw meshFault(fileName, "it holds points without faces", "a mesh of triangles");
  checkTriangleCount(faceCount, fileName);
  const next = telling(numberReader(bytes, header, fileName), header, onShare);

  let vertices = new Float64Array();
  const corners = new Growing();
  for (const element of header.elements) {
    if (element.name === "vertex") vertices = readVertices(element, next, fileName);
    else if (element.name === "face") readFaces(element, next, corners, fileName);
    else skip(element, next, fileName);
  }
  const positions = new Float64Array(3 * corners.length);
  for (let i = 0; i < corners.length; i++) {
    const vertex = corners.at(i);
    if (!(Number.isInteger(vertex) && vertex >= 0 && 3 * vertex < vertices.length)) {
      const which = Number.isFinite(vertex) ? `vertex ${vertex}, which is not there` : "what is no number as a vertex";
      throw meshFault(fileName, `a face names ${which}`, "faces of vertices in the file");
    }
    positions.set(vertices.subarray(3 * vertex, 3 * vertex + 3), 3 * i);
  }
  return positions;
}

function readHeader(bytes: Uint8Array, fileName: string): PlyHeader {
  const text = new TextDecoder("latin1").decode(bytes.subarray(0, 65536));
  const found = /^ply\s*?(?:\r\n|\r|\n)([\s\S]*?)end_header[ \t]*(?:\r\n|\r|\n)/.exec(text);
  if (!found) throw meshFault(fileName, "it does not begin with a PLY header", "a PLY file");
  let format = "";
  const elements: PlyElement[] = [];
  for (const line of found[1]!.split(/\r\n|\r|\n/)) {
    const words = line.trim().split(/\s+/);
    if (words[0] === "format") format = words[1] ?? "";
    else if (words[0] === "element") {
      const count = Number(words[2]);
      // every entry takes a byte at least
      const [, name = "", claimed = ""] = words;
      if (claimed === "" || !Number.isInteger(count) || count < 0 || count > bytes.length) {
        throw meshFault(
          fileName,
          `its header claims ${shortQuote(claimed)} of ${shortQuote(name)}`,
          "a whole PLY file",
        );
      }
      elements.push({ name, count, properties: [] });
    } else if (words[0] === "property") {
      const isList = words[1] === "list";
      elements.at(-1)?.properties.push({
        name: words.at(-1) ?? "",
        type: numberType(words[isList ? 3 : 1], fileName),
        countType: isList ? numberType(words[2], fileName) : null,
      });
    }
  }
  return { format, elements, bodyStart: found[0].length };
}

function numberType(word: string | undefined, fileName: string): NumberType {
  const name = word ?? "";
  if (Object.hasOwn(OLD_NAMES, name)) return OLD_NAMES[name]!;
  if (Object.hasOwn(BYTES, name)) return name as NumberType;
  throw meshFault(fileName, `its header names the number type ${shortQuote(name)}`, "a type of the PLY format");
}

function numberReader(bytes: Uint8Array, { format, bodyStart }: PlyHeader, fileName: string): NextNumber {
  const brokenOff = () =>
    meshFault(fileName, "the file breaks off before its header's counts are met", "a whole PLY file");
  if (format === "ascii") {
    const scanner = new ByteScanner(bytes, bodyStart);
    return () => {
      scanner.skipBlanks(true);
      if (scanner.at >= bytes.length) throw brokenOff();
      return scanner.number();
    };
  }
  if (format !== "binary_little_endian" && format !== "binary_big_endian") {
    throw meshFault(
      fileName,
      `its format is ${shortQuote(format)}`,
      "ascii, binary_little_endian or binary_big_endian",
    );
  }
  const little = format === "binary_little_endian";
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = bodyStart;
  return (type) => {
    const from = at;
    at += BYTES[type];
    if (at > bytes.length) throw brokenOff();
    switch (type) {
      case "int8":
        return view.getInt8(from);
      case "uint8":
        return view.getUint8(from);
      case "int16":
        return view.getInt16(from, little);
      case "uint16":
        return view.getUint16(from, little);
      case "int32":
        return view.getInt32(from, little);
      case "uint32":
        return view.getUint32(from, little);
      case "float32":
        return view.getFloat32(from, little);
      case "float64":
        return view.getFloat64(from, little);
    }
  };
}

/** The same numbers; tells the share of them by what a face and the like usually have. */
function telling(next: NextNumber, { elements }: PlyHeader, onShare: ReadShare | undefined): NextNumber {
  if (!onShare) return next;
  const usual = ({ countType }: PlyProperty) => (countType === null ? 1 : 4);
  const total = elements.reduce(
    (sum, { count, properties }) => sum + count * properties.reduce((each, property) => each + usual(property), 0),
    0,
  );
  let done = 0;
  return (type) => {
    if (done++ % TELL_EVERY === 0) onShare(Math.min(1, done / total));
    return next(type);
  };
}

function readVertices(
  { count, properties }: PlyElement,
  next: NextNumber,
  fileName: string,
): Float64Array<ArrayBuffer> {
  const axes = properties.map(({ name }) => ["x", "y", "z"].indexOf(name));
  if (axes.filter((axis) => axis >= 0).length !== 3)
    throw meshFault(fileName, "its vertices have no x, y, z", "a PLY mesh");
  if (count > MOST_VERTICES) {
    throw meshFault(fileName, `it has ${count} vertices`, `at most ${MOST_VERTICES}: thin the mesh out first`);
  }
  const vertices = new Float64Array(3 * count);
  for (let i = 0; i < count; i++) {
    for (const [k, property] of properties.entries()) {
      const value = readProperty(property, next, fileName);
      if (axes[k]! >= 0) vertices[3 * i + axes[k]!] = value.at(-1) ?? Number.NaN;
    }
  }
  return vertices;
}

function readFaces({ count, properties }: PlyElement, next: NextNumber, corners: Growing, fileName: string): void {
  for (let i = 0; i < count; i++) {
    for (const property of properties) {
      const face = readProperty(property, next, fileName);
      if (property.name !== "vertex_indices" && property.name !== "vertex_index") continue;
      for (let k = 2; k < face.length; k++) {
        for (const vertex of [face[0]!, face[k - 1]!, face[k]!]) corners.push(vertex);
      }
    }
    checkTriangleCount(corners.length / 3, fileName);
  }
}

function skip({ count, properties }: PlyElement, next: NextNumber, fileName: string): void {
  for (let i = 0; i < count; i++) for (const property of properties) readProperty(property, next, fileName);
}

function readProperty({ name, type, countType }: PlyProperty, next: NextNumber, fileName: string): number[] {
  const count = countType === null ? 1 : next(countType);
  if (!Number.isInteger(count) || count < 0 || count > MOST_TRIANGLES) {
    const many = Number.isFinite(count) ? String(count) : "what is no number";
    throw meshFault(fileName, `the length of a list of ${shortQuote(name)} is ${many}`, `0 to ${MOST_TRIANGLES}`);
  }
  const values: number[] = [];
  for (let i = 0; i < count; i++) values.push(next(type));
  return values;
}
