import type { TestProject } from "vitest/node";
import { serveBuiltApp } from "../builtApp.ts";

declare module "vitest" {
  export interface ProvidedContext {
    address: string;
  }
}

/** Builds the app and serves it for the browser tests. */
export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const { address, close } = await serveBuiltApp();
  project.provide("address", address);
  return close;
}
