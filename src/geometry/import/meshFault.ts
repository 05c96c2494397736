import { InputError } from "../../scene/error.ts";

/** More than this is refused: a scan can be thinned out, a browser's memory cannot be stretched. */
export const MOST_TRIANGLES = 2_000_000;
export const MOST_BYTES = 400_000_000;

export function meshFault(fileName: string, wrong: string, wanted: string): InputError {
  return new InputError("mesh", { file: fileName }, wrong, wanted);
}

/** A mesh that nothing is wrong with but its size: whoever checks a scene may go on without it. */
export class MeshTooLarge extends InputError {
  constructor(fileName: string, wrong: string, wanted: string) {
    super("mesh", { file: fileName }, wrong, wanted);
  }
}

export function checkTriangleCount(count: number, fileName: string): void {
  if (count > MOST_TRIANGLES) {
    throw new MeshTooLarge(fileName, `it has ${count} triangles`, `at most ${MOST_TRIANGLES}: thin the mesh out first`);
  }
}
