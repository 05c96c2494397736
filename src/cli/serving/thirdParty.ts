import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Licences (SPDX names) under which something may be shipped with the app; those beyond permissive ones with what they ask. */
export const ALLOWED: ReadonlySet<string> = new Set([
  "MIT",
  "ISC",
  "0BSD",
  "BSD-2-Clause",
  "BSD-3-Clause",
  // its text and its NOTICE go along
  "Apache-2.0",
  // fonts: the text goes along, their names are not used for altered ones
  "OFL-1.1",
  // taken as it is: the list says where its source lies
  "MPL-2.0",
]);

/** What is in the built app though no module of it is imported: put there by the tools that build it. */
export const BY_TOOLS: Readonly<Record<string, string>> = {
  assemblyscript: "its standard library is compiled into the kernel that measures distances",
  vite: "its loader of parts of the program",
  rolldown: "its runtime of modules",
  "workbox-core": "in the service worker",
  "workbox-precaching": "in the service worker",
  "workbox-routing": "in the service worker",
  "workbox-strategies": "in the service worker",
};

export interface ShippedPackage {
  readonly name: string;
  readonly version: string;
  readonly license: string;
  readonly source: string;
  /** Licence and notice files as they came with it, joined. */
  readonly texts: string;
}

/** Folders of packages (`node_modules/a`, `node_modules/b/node_modules/@c/d`) that the modules of a build lie in. */
export function packageFolders(moduleIds: Iterable<string>, root: string): Set<string> {
  const folders = new Set<string>();
  const base = `${root.replaceAll("\\", "/").replace(/[/]$/, "")}/`;
  for (const id of moduleIds) {
    const path = id
      .replaceAll("\\", "/")
      .replace(/^\0/, "")
      .replace(/[?].*$/s, "");
    const at = path.lastIndexOf("/node_modules/");
    if (at < 0) continue;
    const steps = path.slice(at + "/node_modules/".length).split("/");
    const name = steps.slice(0, steps[0]!.startsWith("@") ? 2 : 1).join("/");
    const folder = `${path.slice(0, at)}/node_modules/${name}`;
    folders.add(folder.startsWith(base) ? folder.slice(base.length) : folder.slice(folder.indexOf("node_modules/")));
  }
  return folders;
}

/** Throws an Error for a package without a licence that may be shipped. */
export function readPackage(root: string, folder: string): ShippedPackage {
  const place = join(root, folder);
  const about = JSON.parse(readFileSync(join(place, "package.json"), "utf8"));
  const license = typeof about.license === "string" ? about.license : (about.license?.type ?? "");
  const { name, version } = about;
  if (!ALLOWED.has(license)) throw new Error(`${name} ${version}: its licence "${license}" is not one to ship under`);
  const source = webAddress(String(about.repository?.url ?? about.repository ?? about.homepage ?? ""));
  const files = readdirSync(place)
    .filter((file) => /^(licen[cs]e|copying|notice)([.-].*)?$/i.test(file))
    .sort();
  const texts = files
    .map((file) => readFileSync(join(place, file), "utf8").replaceAll("\r\n", "\n").trim())
    .join("\n\n");
  return { name, version, license, source, texts: texts || ownWords(about) };
}

/** Where a package says that its source lies, as an address that a browser opens. */
function webAddress(told: string): string {
  const path = told.replace(/[.]git$/, "").replace(/^(git[+])?(ssh|https?|git):[/][/](git@)?|^git@/, "");
  if (path === "") return "";
  if (/^(github:)?[\w.-]+[/][\w.-]+$/.test(path)) return `https://github.com/${path.replace(/^github:/, "")}`;
  return `https://${path.replace(/^([\w.-]+):/, "$1/")}`;
}

/** For the few packages that come without the text: what they say of themselves, and where the text stands. */
function ownWords({ author, license }: { author?: string | { name?: string }; license: string }): string {
  const holder = typeof author === "string" ? author : author?.name;
  return `(No licence text comes with the package. It states: ${license}${holder ? `, by ${holder}` : ""}. The text: https://spdx.org/licenses/${license}.html)`;
}

/** The list that goes with the app: names, versions, licences and sources first, then every text once. */
export function thirdPartyText(root: string, folders: Iterable<string>): string {
  const all = [...new Set([...folders, ...toolFolders(root)])].map((folder) => readPackage(root, folder));
  all.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : a.version < b.version ? -1 : 1));
  const unique = all.filter(
    (each, i) => all.findIndex((other) => other.name === each.name && other.version === each.version) === i,
  );
  const rows = unique.map((each) => {
    const why = BY_TOOLS[each.name];
    return `- ${each.name} ${each.version}: ${each.license}${each.source ? `, ${each.source}` : ""}${why ? ` (${why})` : ""}`;
  });
  const byText = new Map<string, ShippedPackage[]>();
  for (const each of unique) byText.set(each.texts, [...(byText.get(each.texts) ?? []), each]);
  const texts = [...byText].map(
    ([text, of]) => `${"=".repeat(78)}\n${of.map(({ name, version }) => `${name} ${version}`).join(", ")}\n\n${text}`,
  );
  return [
    "Works of others that are shipped with Elbowroom, as they were built into it. Made by the build; do not edit.",
    rows.join("\n"),
    ...texts,
    "",
  ].join("\n\n");
}

function toolFolders(root: string): string[] {
  return Object.keys(BY_TOOLS)
    .map((name) => `node_modules/${name}`)
    .filter((folder) => {
      if (existsSync(join(root, folder))) return true;
      throw new Error(`${folder} is missing: install the packages`);
    });
}
