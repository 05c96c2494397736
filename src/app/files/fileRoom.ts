import type { MadePicture, PictureRequest } from "../../work/pictureRoom.ts";
import type { FileRoom, Job, ModelRequest, SceneFiles } from "../../work/protocol.ts";
import { t } from "../text/text.ts";

let room: FileRoom | null = null;

/** Gives forms what makes files of the car. */
export function serveFiles(workshop: FileRoom): void {
  room = workshop;
}

function theRoom(): FileRoom {
  if (!room) throw new Error(t("files.notYet"));
  return room;
}

export function askPicture(request: PictureRequest, files: SceneFiles): Job<MadePicture> {
  return theRoom().picture(request, files);
}

export function askModel(request: ModelRequest, files: SceneFiles): Job<Uint8Array<ArrayBuffer>> {
  return theRoom().model(request, files);
}
