import { describe, expect, it } from "vitest";
import { ownScript } from "../../src/app/shell/trusted.ts";

const PAGE = "http://127.0.0.1:4620/rooms/index.html";

describe("addresses of scripts", () => {
  it.each(["./sw.js", "assets/machine.worker-abc.js", "http://127.0.0.1:4620/rooms/assets/a.js"])(
    "%s is the app's own",
    (address) => {
      expect(ownScript(address, PAGE)).toBe(address);
    },
  );

  it.each([
    "http://elsewhere.example/a.js",
    "//elsewhere.example/a.js",
    "../a.js",
    "/a.js",
    "https://127.0.0.1:4620/rooms/a.js",
    "http://127.0.0.1:4621/rooms/a.js",
    "data:text/javascript,1",
    "blob:http://127.0.0.1:4620/1",
    "javascript:1",
    "assets/%2e%2e/../../a.js",
  ])("%s is not", (address) => {
    expect(() => ownScript(address, PAGE)).toThrow(TypeError);
  });
});
