import { describe } from "vitest";
import { holdMotion } from "./holdMotion.ts";
import { lotOf } from "./lot.ts";

describe("random corners move as their parts let them", () => holdMotion(lotOf(0, 500)));
