import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { preview } from "vite";

/** The app as users get it, built and served on a free loopback port. */
export interface BuiltApp {
  readonly address: string;
  close(): Promise<void>;
}

export async function serveBuiltApp(): Promise<BuiltApp> {
  const root = fileURLToPath(new URL("..", import.meta.url));
  // a build inside a test runner would inherit its NODE_ENV and ship React's development build
  const build = spawnSync(process.execPath, ["node_modules/vite/bin/vite.js", "build", "--logLevel", "warn"], {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, NODE_ENV: "production" },
  });
  if (build.status !== 0) throw new Error(`vite build stopped with status ${build.status}`);
  const server = await preview({
    root: `${root}/src/app`,
    configFile: `${root}/vite.config.ts`,
    logLevel: "warn",
    preview: { host: "127.0.0.1", port: 0 },
  });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error("the preview server gave no address");
  return { address, close: () => server.close() };
}
