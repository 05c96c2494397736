import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readAnyLog } from "../../src/buildlog/anyLog.ts";
import { writeLog } from "../../src/buildlog/logfile.ts";
import { fullLog } from "../buildlog/logs.ts";
import { run, testFolder } from "./terminal.ts";

const folder = testFolder();
const saved = () => folder.save("log.json", writeLog(LOG));
const LOG = fullLog();

describe("the terminal's report", () => {
  it("tells the cards and what is open, and says by its status that something is", () => {
    const { status, out, err } = run("report", saved());
    expect([status, err]).toEqual([1, ""]);
    expect(out).toContain("Donor mounts in");
    expect(out).toMatch(/arch and tyre \(right\)\s+3\.1 too deep\s+15\.0/);
    expect(out).toMatch(/Kim\s+fixed: card 14 finds it clear/);
  });

  it("tells the same as one JSON document", () => {
    const { status, out } = run("report", saved(), "--json", "--card", "14");
    const told = JSON.parse(out);
    expect(status).toBe(1);
    expect(told.sha256).toBe(JSON.parse(writeLog(LOG)).sha256);
    expect(told.cards.map((card: { number: number }) => card.number)).toEqual([14]);
    expect(told.clashes[0]).toMatchObject({ state: "open", finding: { of: { a: "arch", b: "tyre" } } });
  });

  it("makes any kind of file of any other, and loses nothing on the way", () => {
    const zip = folder.at("log.zip");
    const page = folder.at("log.html");
    const again = folder.at("again.json");
    expect(run("report", saved(), "--to", zip).out).toBe(`${zip}\n`);
    expect(run("report", zip, "--to", page).err).toBe("");
    expect(run("report", page, "--to", again).err).toBe("");
    expect(readFileSync(again, "utf8")).toBe(writeLog(LOG));
    expect(readAnyLog(readFileSync(page), "log.html")).toStrictEqual(LOG);
  });

  it("makes a PDF on Letter", () => {
    const pdf = folder.at("log.pdf");
    expect(run("report", saved(), "--to", pdf, "--paper", "letter", "--units", "in").err).toBe("");
    // a PDF begins so: ISO 32000-1, 7.5.2
    expect(readFileSync(pdf).subarray(0, 5).toString("latin1")).toBe("%PDF-");
  });

  it("reads a log of version 1", () => {
    const { status, out } = run("report", "tests/fixtures/build-log-version-1.json");
    expect(status).toBe(1);
    expect(out).toContain("Donor links hung in");
  });

  it.each([
    [["--to", "log.doc"], /--to: "log\.doc" is no kind of report/],
    [["--paper", "a3", "--to", "/nowhere/x.pdf"], /--paper: "a3" is not known; wanted: a4 or letter/],
    [["--card", "99"], /--card: there is no card "99"; wanted: 12, 13, 14/],
    [["--to", "/nowhere/x.md"], /cannot be written \(ENOENT\)/],
  ])("names what is wrong with %j", (args, message) => {
    const { status, out, err } = run("report", saved(), ...args);
    expect([status, out]).toEqual([2, ""]);
    expect(err).toMatch(message);
  });

  it("refuses a scene, and a log that was changed", () => {
    expect(run("report", "scenes/1-hub-and-arm-donor-links.json").err).toMatch(/it is not a build log/);
    const changed = folder.save("changed.json", writeLog(LOG).replace('"owner":"Kim"', '"owner":"Pat"'));
    expect(run("report", changed)).toMatchObject({ status: 2, out: "" });
  });
});
