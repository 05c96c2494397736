import type { VerbOptions, VerbOutcome } from "../../src/cli/verb.ts";
import type { SceneDocument } from "../../src/scene/document.ts";
import { writeScene } from "../../src/scene/write.ts";
import { testFolder } from "../cli/terminal.ts";

type Verb = (path: string, options: VerbOptions) => VerbOutcome | Promise<VerbOutcome>;

/** Runs verbs on scenes as a terminal does, and reads what they write as JSON. */
export function terminal(): {
  says(verb: Verb, scene: SceneDocument, options?: Partial<VerbOptions>): Promise<unknown>;
  at(name: string): string;
} {
  const { at, save } = testFolder();
  return {
    at,
    async says(verb, scene, options = {}) {
      const path = save("scene.json", writeScene(scene));
      return JSON.parse((await verb(path, { ...options, json: true } as VerbOptions)).output);
    },
  };
}

/** All numbers that stand in the written document at a number's own name: "jigVerb.mounts.within_mm.out" is `mounts[].within_mm.out`. */
export function toldAt(written: unknown, name: string): number[] {
  let found: unknown[] = [written];
  for (const key of name.split(".").slice(1)) {
    found = found.flatMap((each) => {
      const value = (each as Record<string, unknown> | null)?.[key];
      return value === undefined || value === null ? [] : Array.isArray(value) ? value : [value];
    });
  }
  return found.flat(3) as number[];
}
