import { describe, expect, it } from "vitest";
import { canonicalJson, fingerprint } from "../../src/buildlog/hash.ts";

describe("fingerprint", () => {
  // Test vectors of FNV-1a, 64 bit: RFC 9923 (Fowler, Noll, Vo, Eastlake, Hansen; 2025), appendix with test vectors.
  it.each([
    ["", "cbf29ce484222325"],
    ["a", "af63dc4c8601ec8c"],
    ["foobar", "85944171f73967e8"],
  ])("of %j is the published one", (text, hash) => {
    expect(fingerprint(text)).toBe(hash);
  });
});

describe("canonicalJson", () => {
  it("does not depend on the order in which keys were written", () => {
    expect(canonicalJson({ b: [{ d: 1, c: 2 }], a: null })).toBe(canonicalJson({ a: null, b: [{ c: 2, d: 1 }] }));
  });

  it("keeps the order of a list, which has a meaning", () => {
    expect(canonicalJson([1, 2])).not.toBe(canonicalJson([2, 1]));
  });
});
