// A thread does not inherit what lets Node run TypeScript as it stands.
import { register } from "tsx/esm/api";

register();
await import("./studiesWorker.ts");
