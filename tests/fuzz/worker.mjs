// One thread that opens case after case; what watches it is child.mjs.
import { register } from "tsx/esm/api";

register();
const { run } = await import("./run.ts");
await run();
