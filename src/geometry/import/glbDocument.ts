import * as z from "zod";
import { shortQuote } from "../../scene/path.ts";
import { checkTriangleCount, MOST_TRIANGLES, meshFault } from "./meshFault.ts";

/*
 * What is kept of a glTF document: nodes, meshes and their places. What it looks like (materials, pictures, bones, motion) is
 * left out. Held against the standard (glTF 2.0 and EXT_mesh_gpu_instancing) before a general loader sees it, which takes a
 * document as it comes: nodes that hold each other it waits for without end, and what is counted in it it makes room for.
 */

const INSTANCES = "EXT_mesh_gpu_instancing";
/** Bytes of a number, by its code (glTF 2.0, 3.6.2.2). */
const NUMBER_BYTES: Readonly<Record<number, number>> = { 5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4 };
const NUMBERS: Readonly<Record<string, number>> = { SCALAR: 1, VEC2: 2, VEC3: 3, VEC4: 4, MAT2: 4, MAT3: 9, MAT4: 16 };
const FLOAT = 5126;
/** Of points, lines and triangles; 4 to 6 are triangles, their strips and fans. */
const TRIANGLES = 4;
/** Deeper than anybody nests parts; what walks the nodes calls itself for each level. */
const DEEPEST = 500;
/** More nodes, meshes and so on than a drawing of a whole car has. */
const MOST_LISTED = 100_000;
/** More than all corners of the most triangles. */
const MOST_PLACES = 3 * MOST_TRIANGLES;

const ZEROS = [0, 0, 0] as const;

const index = z.int().min(0);
const size = z.int().min(0).optional();
const numbers = (length: number) => z.array(z.number()).length(length).optional();

const node = z.object({
  mesh: index.optional(),
  children: z.array(index).optional(),
  matrix: numbers(16),
  translation: numbers(3),
  rotation: numbers(4),
  scale: numbers(3),
  extensions: z
    .object({
      [INSTANCES]: z
        .object({
          attributes: z.object({ TRANSLATION: index.optional(), ROTATION: index.optional(), SCALE: index.optional() }),
        })
        .optional(),
    })
    .optional(),
});
const primitive = z.object({
  attributes: z.object({ POSITION: index.optional() }),
  indices: index.optional(),
  mode: z.int().min(0).max(6).optional(),
});
const accessor = z.object({
  bufferView: index.optional(),
  byteOffset: size,
  componentType: z.int().refine((code) => Object.hasOwn(NUMBER_BYTES, code)),
  count: z.int().min(1),
  type: z.string().refine((name) => Object.hasOwn(NUMBERS, name)),
  normalized: z.boolean().optional(),
  sparse: z
    .object({
      count: z.int().min(1),
      indices: z.object({ bufferView: index, byteOffset: size, componentType: z.literal([5121, 5123, 5125]) }),
      values: z.object({ bufferView: index, byteOffset: size }),
    })
    .optional(),
});
const view = z.object({
  buffer: index,
  byteOffset: size,
  byteLength: z.int().min(1),
  byteStride: z.int().min(4).max(252).optional(),
});
const document = z.object({
  asset: z.object({ version: z.string() }),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).optional() })).optional(),
  nodes: z.array(node).optional(),
  meshes: z.array(z.object({ primitives: z.array(primitive).min(1) })).optional(),
  accessors: z.array(accessor).optional(),
  bufferViews: z.array(view).optional(),
  buffers: z.array(z.object({ byteLength: z.int().min(1), uri: z.undefined().optional() })).optional(),
});

export type GlbDocument = z.infer<typeof document>;
type Accessor = z.infer<typeof accessor>;

/**
 * The document of a GLB file cut down to its geometry. `binaryBytes` is the length of its second part. Throws InputError `mesh`
 * for what does not hold together, or is more than is read.
 */
export function glbDocument(given: unknown, binaryBytes: number, fileName: string): GlbDocument {
  for (const [name, list] of Object.entries(given ?? {})) {
    if (Array.isArray(list) && list.length > MOST_LISTED) throw faulty(`it has ${list.length} ${shortQuote(name)}`);
  }
  const read = document.safeParse(given);
  if (!read.success) {
    const place = read.error.issues[0]!.path.map(String).join("/").slice(0, 80);
    throw faulty(`${place || "its description"} is not as glTF 2.0 has it`);
  }
  const kept = read.data;
  const { nodes = [], meshes = [], accessors = [], bufferViews = [], buffers = [], scenes = [] } = kept;
  for (const [i, { byteLength }] of buffers.entries()) {
    if (i > 0 || byteLength > binaryBytes) throw faulty(`buffers/${i} is not all in the file`);
  }
  for (const [i, each] of bufferViews.entries()) {
    const buffer = there(buffers, each.buffer, `bufferViews/${i}`);
    if ((each.byteOffset ?? 0) + each.byteLength > buffer.byteLength) {
      throw faulty(`bufferViews/${i} reaches beyond its buffer`);
    }
  }
  let made = 0;
  for (const [i, each] of accessors.entries()) {
    mustFit(each, `accessors/${i}`);
    if (each.bufferView === undefined || each.sparse) made += each.count;
    if (made > MOST_PLACES) throw faulty(`accessors/${i} takes more room than the file has`);
  }
  for (const [i, mesh] of meshes.entries()) {
    // what has no places cannot be drawn
    mesh.primitives = mesh.primitives.filter(({ attributes }) => attributes.POSITION !== undefined);
    for (const { attributes, indices } of mesh.primitives) {
      const places = there(accessors, attributes.POSITION!, `meshes/${i}`);
      if (places.type !== "VEC3") throw faulty(`accessors/${attributes.POSITION} is no list of places`);
      // the loader asks for them; nothing here reads what they say
      Object.assign(places, { min: ZEROS, max: ZEROS });
      if (indices === undefined) continue;
      const { type, componentType } = there(accessors, indices, `meshes/${i}`);
      if (type !== "SCALAR" || ![5121, 5123, 5125].includes(componentType)) {
        throw faulty(`accessors/${indices} is no list of vertices`);
      }
    }
  }
  for (const [i, each] of nodes.entries()) {
    if (each.mesh === undefined) continue;
    if (there(meshes, each.mesh, `nodes/${i}`).primitives.length === 0) delete each.mesh;
  }
  const shown = there(scenes, kept.scene ?? 0, "scene");
  checkTriangleCount(trianglesBelow(shown.nodes ?? []), fileName);
  return kept;

  function faulty(wrong: string) {
    return meshFault(fileName, wrong, "a whole GLB file (glTF 2.0, binary)");
  }

  function there<T>(list: readonly T[], at: number, who: string): T {
    const found = list[at];
    if (found === undefined) throw faulty(`${who} names number ${at}, which is not there`);
    return found;
  }

  function mustFit({ bufferView, byteOffset = 0, componentType, count, type, sparse }: Accessor, place: string): void {
    if (count > MOST_PLACES) throw faulty(`${place} counts ${count}`);
    const numberBytes = NUMBER_BYTES[componentType]!;
    const each = numberBytes * NUMBERS[type]!;
    if (bufferView !== undefined) mustLie(bufferView, byteOffset, numberBytes, each, count);
    if (!sparse) return;
    if (sparse.count > count) throw faulty(`${place} has more exceptions than places`);
    const { indices, values } = sparse;
    const indexBytes = NUMBER_BYTES[indices.componentType]!;
    mustLie(indices.bufferView, indices.byteOffset ?? 0, indexBytes, indexBytes, sparse.count);
    mustLie(values.bufferView, values.byteOffset ?? 0, numberBytes, each, sparse.count);

    function mustLie(at: number, from: number, unit: number, bytes: number, many: number): void {
      const within = there(bufferViews, at, place);
      const stride = within.byteStride ?? bytes;
      if (((within.byteOffset ?? 0) + from) % unit !== 0 || stride % unit !== 0 || from % unit !== 0) {
        throw faulty(`${place} begins between two numbers`);
      }
      if (from + stride * (many - 1) + bytes > within.byteLength)
        throw faulty(`${place} reaches beyond bufferViews/${at}`);
    }
  }

  /** Of everything that is drawn, as often as it is. The nodes must be trees (glTF 2.0, 3.5.2). */
  function trianglesBelow(roots: readonly number[]): number {
    const met = new Set<number>();
    let triangles = 0;
    let level: readonly number[] = roots;
    for (let depth = 0; level.length > 0; depth++) {
      if (depth > DEEPEST) throw faulty(`nodes are nested more than ${DEEPEST} deep`);
      const below: number[] = [];
      for (const at of level) {
        const { mesh, children = [], extensions } = there(nodes, at, "nodes");
        if (met.has(at)) throw faulty(`nodes/${at} hangs in two places`);
        met.add(at);
        for (const child of children) below.push(child);
        if (mesh === undefined) continue;
        const copies = copiesOf(extensions?.[INSTANCES]?.attributes, `nodes/${at}`);
        for (const part of meshes[mesh]!.primitives) triangles += copies * trianglesOf(part);
      }
      level = below;
    }
    return triangles;
  }

  function trianglesOf({ attributes, indices, mode = TRIANGLES }: z.infer<typeof primitive>): number {
    if (mode < TRIANGLES) return 0;
    const { count } = accessors[indices ?? attributes.POSITION!]!;
    return mode === TRIANGLES ? Math.floor(count / 3) : Math.max(0, count - 2);
  }

  function copiesOf(attributes: Readonly<Record<string, number | undefined>> | undefined, place: string): number {
    if (!attributes) return 1;
    const given = Object.values(attributes).filter((at) => at !== undefined);
    const counts = given.map((at) => there(accessors, at, place).count);
    const [first = 0] = counts;
    if (counts.some((count) => count !== first)) throw faulty(`${place} tells of copies in lists of several lengths`);
    for (const [name, at] of Object.entries(attributes)) {
      if (at === undefined) continue;
      const { type, componentType } = accessors[at]!;
      const wanted = name === "ROTATION" ? "VEC4" : "VEC3";
      if (type !== wanted || (name !== "ROTATION" && componentType !== FLOAT))
        throw faulty(`${place} tells of copies otherwise than by places`);
    }
    return first;
  }
}
