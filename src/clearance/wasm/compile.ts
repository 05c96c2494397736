import { readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { main } from "assemblyscript/asc";

const ROOT = fileURLToPath(new URL("../../../", import.meta.url));
const SOURCE = "src/clearance/wasm/assembly/index.ts";
const GENERATED = fileURLToPath(new URL("kernel.generated.ts", import.meta.url));

/** Compiles the kernel in `folder` and returns the text of the generated module. Throws what the compiler says. */
export async function compileKernel(folder: string): Promise<string> {
  const binary = join(folder, "clearance-kernel.wasm");
  const options = ["-O3", "--enable", "simd", "--runtime", "stub", "--noAssert", "--use", "abort="];
  const { error, stderr } = await main([SOURCE, ...options, "--baseDir", ROOT, "--outFile", binary]);
  if (error) throw new Error(`the kernel does not compile: ${stderr.toString()}`, { cause: error });
  const bytes = readFileSync(binary).toString("base64");
  return `// Made by \`npm run kernel\` from assembly/*.ts: do not edit.\nexport const KERNEL_BASE64 =\n  "${bytes}";\n`;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  writeFileSync(GENERATED, await compileKernel(tmpdir()));
}
