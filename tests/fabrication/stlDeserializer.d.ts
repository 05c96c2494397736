declare module "@jscad/stl-deserializer" {
  import type { geometries } from "@jscad/modeling";

  /** Solids of an STL file, text or binary. */
  export function deserialize(
    options: { readonly output: "geometry"; readonly addMetaData: boolean },
    stl: ArrayBufferLike | string,
  ): geometries.geom3.Geom3 | geometries.geom3.Geom3[];
}
