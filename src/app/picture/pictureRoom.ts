import type { MadePicture, PictureRequest } from "../../work/pictureRoom.ts";
import type { Job, PictureRoom, SceneFiles } from "../../work/protocol.ts";

let room: PictureRoom | null = null;

/** Gives the form what draws. */
export function servePictures(workshop: PictureRoom): void {
  room = workshop;
}

/** Null before anything computes. */
export function askPicture(request: PictureRequest, files: SceneFiles): Job<MadePicture> | null {
  return room?.picture(request, files) ?? null;
}
