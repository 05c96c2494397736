import { describe } from "vitest";
import { holdClearance } from "./holdClearance.ts";
import { lotOf } from "./lot.ts";

describe("the parts of random corners are as near to each other as is told", () => holdClearance(lotOf(0, 500), 1));
