import { beforeAll, describe, expect, it } from "vitest";
import { withMeasured } from "../../src/scene/measured.ts";
import { studyCorner } from "../studies/studyCorner.ts";
import { run, testFolder } from "./terminal.ts";

const folder = testFolder();
let scene: string;

beforeAll(() => {
  scene = folder.save("story.json", JSON.stringify(studyCorner()));
});

const ROOM = ["--point", "upper.in", "--out", "0:15", "--up", "-10:0", "--step", "5"];

describe("room in the terminal", () => {
  it("tells the nearest and the roomiest place and what refuses the others, and exits 0", () => {
    const { status, out, err } = run("room", scene, ...ROOM);
    expect(err).toBe("");
    expect(status).toBe(0);
    expect(out).toMatch(/upper\.in, cut to suit: \d+ of 12 places are free/);
    expect(out).toMatch(/nearest .* out.*down: .* beyond what is wanted/);
    expect(out).toMatch(/refused .* sump-rail \/ upper/);
    expect(out).toMatch(/check a place in full/);
  });

  it("prints one JSON document, the same from merged shards as from one run", () => {
    const whole = run("room", scene, ...ROOM, "--json");
    expect(JSON.parse(whole.out)).toMatchObject({ study: "room", counts: [4, 3, 1], summary: { unasked: 0 } });
    const shards = ["1/2", "2/2"].map((shard) =>
      folder.save(`${shard[0]}.json`, run("room", scene, ...ROOM, "--json", "--shard", shard).out),
    );
    const merged = run("merge", ...shards, "--json");
    expect(merged.err).toBe("");
    expect(merged.out).toBe(whole.out);
  });

  it("checks a chosen place in full and tells its price, and exits 1 where nothing is free", () => {
    const { status, out } = run("room", scene, "--point", "upper.in", "--place", "0,15,-10");
    expect(out).toMatch(/upper\.in 15\.0 mm out, 10\.0 mm down, cut to suit/);
    expect(out).toMatch(/camber −0\.\d+°/);
    expect(out).not.toMatch(/sump-rail \/ upper/);
    expect([0, 1]).toContain(status);
    expect(run("room", scene, "--point", "upper.in", "--out", "0:5", "--toe-change", "0.001").status).toBe(1);
  });
});

describe("jig and moves in the terminal", () => {
  it("ranks the mounts and advises an adjuster for the front one", () => {
    const { status, out } = run("jig", scene, "--samples", "5");
    expect(status).toBe(1);
    expect(out).toMatch(/arm\.front: .*out ±0\.8 mm.*slots, shims/);
    expect(JSON.parse(run("jig", scene, "--samples", "2", "--json").out)).toMatchObject({ study: "jig" });
  });

  it("says where a mount must go", () => {
    const { status, out } = run("jig", scene, "--mount", "arm.front", "--toe", "0.27");
    expect(status).toBe(0);
    expect(out).toMatch(/^arm\.front must go .*1\.0 mm in/);
  });

  it("finds the smallest moves", () => {
    const { out, err } = run(
      "moves",
      scene,
      "--pair",
      "sump-rail/upper",
      "--point",
      "upper.in",
      "--fit",
      "cut",
      "--within",
      "16",
    );
    expect(err).toBe("");
    expect(out).toMatch(/mm: upper\.in .*cut to suit: toe/);
  });
});

describe("what may happen together in the terminal", () => {
  it("tells what must be clear and what the scene rules out", () => {
    const poses = studyCorner().powertrain!.poses!.map((pose) => ({ ...pose, within_mm: [-70, 0] as const }));
    const banded = folder.save(
      "banded.json",
      JSON.stringify({ ...studyCorner(), sides: "both", powertrain: { poses } }),
    );
    const { out, err } = run("together", banded);
    expect(err).toBe("");
    expect(out).toMatch(/must clear/);
    expect(out).toMatch(/would be left sump-rail\/upper: .*tail-down only from/);
    expect(JSON.parse(run("together", banded, "--json").out)).toMatchObject({ study: "together", bar: null });
  });
});

describe("as built in the terminal", () => {
  it("sets a slot so that toe comes back, and exits 1 where the stated means do not do", () => {
    const corner = { ...studyCorner({ sides: "both" }), bodies: [] };
    const welded = folder.save(
      "welded.json",
      JSON.stringify(withMeasured(corner, "left", "arm.front", { at: [430, 638, 327] })),
    );
    const { status, out, err } = run("asbuilt", welded, "--slot", "arm.front=out:-5:5:1", "--camber-within", "1");
    expect(err).toBe("");
    expect(out).toMatch(/left: toe \+0\.40°/);
    expect(out).toMatch(/arm\.front 2\.0 mm out: toe \+0\.1\d°/);
    expect(out).toMatch(/thrust angle \+0\.1\d°/);
    expect([0, 1]).toContain(status);
    expect(run("asbuilt", welded, "--slot", "arm.front=out:0:1:1").status).toBe(1);
  });

  it("rehearses what welding pulls", () => {
    const { status, out } = run(
      "asbuilt",
      scene,
      "--pull",
      "arm.front=2",
      "--slot",
      "arm.front=out:-4:4:0.5",
      "--json",
    );
    const told = JSON.parse(out);
    expect(told).toMatchObject({ study: "weldpull", isRecovered: status === 0 });
    expect(told.cases).toHaveLength(4);
    expect(run("asbuilt", scene, "--pull", "arm.front=2").out).toMatch(/not all of it can be set back/);
  });
});

describe("service in the terminal", () => {
  const plug = (at: string) => ["--on", "powertrain", "--place", at, "--facing", "0,1,0", "--socket", "26x90"];

  it("tells what stops a socket at ride height and hanging, what would free it, and exits 1", () => {
    const { status, out, err } = run("service", scene, ...plug("-45,290,210"));
    expect(err).toBe("");
    expect(status).toBe(1);
    expect(out).toMatch(/at ride height: overlaps lower by 1\.[5-8] mm/);
    expect(out).toMatch(/hanging at full droop: overlaps lower by 0\.[1-4] mm/);
    expect(out).toMatch(/with the fastener 1\.\d mm forward/);
    expect(out).toMatch(/stands/);
    expect(run("service", scene, ...plug("-35,290,210")).status).toBe(0);
  });

  it("prints one JSON document, of a part out too", () => {
    const { status, out } = run("service", scene, "--part", "sump-rail", "--straight", "0,0,-1=100", "--json");
    expect(status).toBe(1);
    expect(JSON.parse(out)).toMatchObject({ study: "service", jobs: [{ kind: "out", fitsAt: [] }] });
    expect(run("service", scene, "--part", "sump-rail", "--straight", "0,0,1=100").status).toBe(0);
  });
});

describe("studies refuse in one line with exit 2", () => {
  it.each([
    [["room", "SCENE", "--out", "0:5"], /--point/],
    [["room", "SCENE", "--point", "upper.in"], /--out/],
    [["room", "SCENE", "--point", "nowhere", "--out", "0:5"], /story\.json: points: .*nowhere/],
    [["room", "SCENE", "--point", "upper.in", "--out", "5:0"], /--out.*FROM:TO/],
    [["room", "SCENE", "--point", "upper.in", "--out", "0:5", "--fit", "glued"], /--fit.*cut or bolted/],
    [["room", "SCENE", "--point", "upper.in", "--out", "0:5", "--shard", "3/2"], /--shard.*I\/N/],
    [["room", "SCENE", "--point", "upper.in", "--out", "0:5", "--seed", "1"], /--seed/],
    [["moves", "SCENE", "--pair", "a/b"], /story\.json: pair/],
    [["jig", "SCENE", "--mount", "upper.out", "--toe", "0"], /upper\.out/],
    [["jig", "SCENE", "--accuracy", "much"], /--accuracy/],
    [["asbuilt", "SCENE", "--slot", "arm.front=sideways:0:1:1"], /--slot.*forward, out or up/],
    [["merge", "SCENE"], /story\.json: is no room map/],
    [["merge", "nowhere.json"], /nowhere\.json/],
    [["service", "SCENE"], /story\.json: service: there is no job/],
    [["service", "SCENE", "--job", "oil"], /story\.json: service\.jobs.*"oil"/],
    [["service", "SCENE", "--on", "lower"], /--place/],
    [["service", "SCENE", "--part", "nothing"], /"nothing" names nothing/],
    [["check", "SCENE", "--point", "upper.in"], /--point/],
  ])("%j", (args, message) => {
    const { status, out, err } = run(...args.map((arg) => (arg === "SCENE" ? scene : arg)));
    expect(status).toBe(2);
    expect(out).toBe("");
    expect(err.trim().split("\n")).toHaveLength(1);
    expect(err).toMatch(message);
  });
});
