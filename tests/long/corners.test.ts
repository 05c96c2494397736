import { describe } from "vitest";
import { holdClearance } from "../corners/holdClearance.ts";
import { holdMotion } from "../corners/holdMotion.ts";
import { lotOf } from "../corners/lot.ts";

// the first 500 are those of the normal run
const LOT = lotOf(500, 10_000);

describe("ten thousand random corners move as their parts let them", () => holdMotion(LOT));

describe("their parts are as near to each other as is told", () => holdClearance(LOT, 2));
