// Lets Node run the TypeScript of the terminal program as it stands, with no build step.
import { existsSync } from "node:fs";

if (!existsSync(new URL("../../node_modules/tsx", import.meta.url))) {
  console.error("elbowroom: packages are missing; run `npm install` in the project's folder first");
  process.exit(2);
}
// a reader that has seen enough (`| head`) is no fault
process.stdout.on("error", (error) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});
const { register } = await import("tsx/esm/api");
register();
const { main } = await import("./main.ts");
process.exitCode = await main(process.argv.slice(2));
