import { beforeEach, describe, expect, it } from "vitest";
import { receiveFiles } from "../../../src/app/files/receiveFiles.ts";
import { fileNameOf } from "../../../src/app/files/saveFile.ts";
import { openFiles, saveSceneFile, useFileTrouble } from "../../../src/app/files/sceneFiles.ts";
import { matchMeshes, sortFiles } from "../../../src/app/files/sortFiles.ts";
import { app } from "../../../src/app/store/useApp.ts";
import { writeLog } from "../../../src/buildlog/logfile.ts";
import type { SceneDocument } from "../../../src/scene/document.ts";
import { InputError } from "../../../src/scene/error.ts";
import { writeScene } from "../../../src/scene/write.ts";
import { card, document as fixture } from "../../buildlog/fixture.ts";
import { openCorner } from "../points/scene.ts";

const NONE: ReadonlySet<string> = new Set();

function withScan(file = "scans/Sump.stl"): SceneDocument {
  return fixture(undefined, { bodies: [{ id: "sump", on: "powertrain", shape: { kind: "mesh", file, unit: "mm" } }] });
}

const sceneFile = (document: SceneDocument, name = "rear.json") => new File([writeScene(document)], name);
const scan = (name: string) => new File([Uint8Array.of(1, 2, 3)], name);

/** A file that is too large, and must be known to be so without being read. */
function oversize(name: string, size: number): File {
  const file = new File(["{}"], name);
  const refuse = () => Promise.reject(new Error("it was read"));
  return Object.defineProperties(file, {
    size: { value: size },
    text: { value: refuse },
    arrayBuffer: { value: refuse },
    slice: { value: () => new Blob(["{}"]) },
  });
}

async function errorOf(run: Promise<unknown>): Promise<InputError> {
  const error = await run.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (error instanceof InputError) return error;
  throw error ?? new Error("nothing was thrown");
}

describe("receiving files", () => {
  it("reads a scene with the meshes beside it, whatever folder the scene has them in", async () => {
    const received = await receiveFiles([scan("sump.STL"), sceneFile(withScan())], null, NONE);
    expect(received).toMatchObject({ kind: "scene", fileName: "rear.json", missing: [] });
    expect(received.kind === "scene" && received.meshes.get("scans/Sump.stl")).toEqual(Uint8Array.of(1, 2, 3));
  });

  it("names the meshes that are still to come, and not those that are here", async () => {
    const file = sceneFile(withScan());
    expect(await receiveFiles([file], null, NONE)).toMatchObject({ missing: ["scans/Sump.stl"] });
    expect(await receiveFiles([file], null, new Set(["scans/Sump.stl"]))).toMatchObject({ missing: [] });
  });

  it("takes a mesh that the open scene names, and no other", async () => {
    expect(await receiveFiles([scan("Sump.stl")], withScan(), NONE)).toMatchObject({ kind: "meshes" });
    const error = await errorOf(receiveFiles([scan("dash.stl")], withScan(), NONE));
    expect([error.file, error.wanted]).toEqual(["dash.stl", "a mesh the scene names: scans/Sump.stl"]);
  });

  it("takes a mesh for a new scan where the scene waits for none", async () => {
    const file = scan("engine.ply");
    expect(await receiveFiles([file], fixture(), NONE)).toEqual({ kind: "scan", file });
    expect(await receiveFiles([file], withScan(), new Set(["scans/Sump.stl"]))).toEqual({ kind: "scan", file });
  });

  it("knows a build log from a scene", async () => {
    expect(
      await receiveFiles([new File([writeLog({ cards: [card()], decisions: [] })], "log.json")], null, NONE),
    ).toMatchObject({ kind: "log" });
  });

  it.each([
    ["scene.json", 20_000_001],
    ["scene.json", 500_000_001],
    ["scan.stl", 400_000_001],
  ])("refuses a too large %s of %i bytes before reading it", async (name, size) => {
    expect((await errorOf(receiveFiles([oversize(name, size)], withScan(), NONE))).code).toBe("too-large");
  });

  it.each<[what: string, files: File[], code: string]>([
    ["two scenes at once", [sceneFile(fixture()), sceneFile(fixture(), "b.json")], "wrong-format"],
    ["a picture", [new File([""], "photo.jpg")], "wrong-format"],
    ["a mesh with no scene open", [scan("sump.stl")], "wrong-format"],
    ["what is not JSON", [new File(["nine"], "rear.json")], "not-json"],
  ])("refuses %s", async (_what, files, code) => {
    expect((await errorOf(receiveFiles(files, null, NONE))).code).toBe(code);
  });
});

describe("opening what was dropped", () => {
  beforeEach(() => openCorner(fixture()));

  it("opens the scene as a step that can be undone", async () => {
    await openFiles([sceneFile(withScan())]);
    expect(app.getState().fileName).toBe("rear.json");
    expect(useFileTrouble.getState().missing).toEqual(["scans/Sump.stl"]);
    app.getState().undo();
    expect(app.getState().fileName).toBe("wren-rear.json");
  });

  it("keeps the open scene when a file is bad, and tells file, path, what is wrong and what is wanted", async () => {
    const open = app.getState().document;
    const text = writeScene(fixture()).replace('"upper.in"', '"uper.in"');
    await openFiles([new File([text], "rear.json")]);
    expect(app.getState().document).toBe(open);
    const { trouble } = useFileTrouble.getState();
    expect(trouble).toMatchObject({ head: "Not opened", file: "rear.json", path: "members[1].inboard" });
    expect(trouble!.wanted).toContain("uper.in?");
  });

  it("says of what is no JSON that it is no scene, and where it stops to be readable", async () => {
    await openFiles([new File(['{\n  "title": nine\n}'], "notes.json")]);
    const { trouble } = useFileTrouble.getState();
    expect(trouble!.wrong).toBe("is not an Elbowroom scene file (not readable as JSON at line 2, column 12)");
  });

  it("saves the kept scene, a move that is only tried apart", async () => {
    const written: Blob[] = [];
    const stream = { write: async (data: Blob) => void written.push(data), close: async () => {} };
    Reflect.set(globalThis, "showSaveFilePicker", async () => ({ name: "x.json", createWritable: async () => stream }));
    app.getState().tryMove({ point: "upper.in", to: [0, 0, 0], meaning: "cut" });
    await saveSceneFile();
    Reflect.deleteProperty(globalThis, "showSaveFilePicker");
    expect(JSON.parse(await written[0]!.text())).toEqual(fixture());
  });
});

describe("file names", () => {
  it("sorts files by their endings in any case", () => {
    const sorted = sortFiles(["a.JSON", "b.stl", "c.GLB", "d.txt"].map((name) => ({ name })));
    expect([sorted.json.length, sorted.meshes.length, sorted.others.length]).toEqual([1, 2, 1]);
  });

  it("prefers the mesh whose name has the scene's own case", () => {
    const files = [{ name: "SUMP.stl" }, { name: "sump.stl" }];
    expect(matchMeshes(["parts/sump.stl"], files).found.get("parts/sump.stl")).toBe(files[1]);
  });

  it("makes a file name of words", () => {
    expect(fileNameOf("Card 12: Donor mounts in!", ".png")).toBe("card-12-donor-mounts-in.png");
    expect(fileNameOf("Überrollbügel", ".json")).toBe("überrollbügel.json");
    expect(fileNameOf("…", ".json")).toBe("elbowroom.json");
  });
});
