import { readdirSync, readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/**
 * Makes of a built app's folder what a newer build would be to a browser that has the older one: every program and sheet has
 * another name, the old ones are gone, the page has another title, and the list of the service worker says so.
 */
export function putNewBuild(folder: string, title: string): void {
  const assets = join(folder, "assets");
  const names = readdirSync(assets).filter((name) => /\.(js|css)$/.test(name));
  const renamed = new Map(names.map((name) => [name, name.replace(/\.(js|css)$/, "-newer.$1")]));
  for (const [old, name] of renamed) renameSync(join(assets, old), join(assets, name));
  const known = new RegExp(names.map((name) => name.replace(/[.$]/g, "\\$&")).join("|"), "g");
  const files = readdirSync(folder, { recursive: true }).map((name) => join(folder, String(name)));
  for (const file of files.filter((name) => statSync(name).isFile() && /\.(js|css|html)$/.test(name))) {
    writeFileSync(
      file,
      readFileSync(file, "utf8").replace(known, (name) => renamed.get(name)!),
    );
  }
  const [html, worker] = [join(folder, "index.html"), join(folder, "sw.js")];
  writeFileSync(html, readFileSync(html, "utf8").replace(/<title>[^<]*</, `<title>${title}<`));
  const list = /(url:"index\.html",revision:")[^"]+|(revision:")[^"]+(",url:"index\.html")/;
  writeFileSync(worker, readFileSync(worker, "utf8").replace(list, `$1$2${title}$3`));
}
