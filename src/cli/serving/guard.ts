import { realpathSync, statSync } from "node:fs";
import type { IncomingMessage, ServerResponse } from "node:http";
import { join, sep } from "node:path";
import { HEADERS } from "./headers.ts";

/** Names by which a browser on this machine asks for a server on it. Another name that leads here is a page from elsewhere. */
const OWN = /^(127\.0\.0\.1|localhost|\[::1\])(:\d{1,5})?$/i;

export type Refusal = readonly [status: number, why: string];

/**
 * Lets through only what the page itself asks for: GET and HEAD, by a name of this machine, for files that lie in the folder
 * themselves. Everything else is refused before anything is read, with the same headers.
 */
export function guard(folder: string) {
  return (request: IncomingMessage, response: ServerResponse, next: () => void): void => {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    const refusal = refusedMethod(request) ?? refusedName(request) ?? refusedPath(folder, request.url ?? "");
    if (!refusal) {
      next();
      return;
    }
    const [status, why] = refusal;
    if (status === 405) response.setHeader("Allow", "GET, HEAD");
    response.setHeader("Content-Type", "text/plain; charset=utf-8");
    response.statusCode = status;
    // what else it sends is not read
    response.setHeader("Connection", "close");
    response.end(request.method === "HEAD" ? undefined : `${why}\n`);
  };
}

function refusedMethod({ method }: IncomingMessage): Refusal | null {
  return method === "GET" || method === "HEAD" ? null : [405, "only GET and HEAD are answered"];
}

/** A name that somebody else's name server leads to this machine (DNS rebinding) shows in Host; a page from elsewhere in Origin. */
function refusedName({ headers: { host, origin } }: IncomingMessage): Refusal | null {
  if (!OWN.test(host ?? "")) return [421, "this server answers to this machine only"];
  if (origin !== undefined && !OWN.test(origin.replace(/^http:[/][/]/, ""))) {
    return [403, "pages from elsewhere are not answered"];
  }
  return null;
}

/** Null for what is not there too: the server behind says so. */
export function refusedPath(folder: string, url: string): Refusal | null {
  if (!url.startsWith("/") || url.startsWith("//")) return [400, "the path is not one of this server"];
  let path: string;
  try {
    path = decodeURIComponent(url.replace(/[?#].*$/s, ""));
  } catch {
    return [400, "the path is not well encoded"];
  }
  const steps = path.split("/");
  // a second decoding by whoever comes after must find nothing either
  if (/[\\\0%:]/.test(path) || steps.some((step) => step === ".." || step === ".")) {
    return [400, "the path leads out of the folder"];
  }
  if (steps.some((step) => step.startsWith("."))) return [404, "there is no such file"];
  return liesWithin(folder, join(folder, path)) ? null : [404, "there is no such file"];
}

/** A link that leads out of the folder is no file of it; a file that other programs also know by a name of theirs (hard link) is. */
function liesWithin(folder: string, file: string): boolean {
  try {
    const root = realpathSync(folder);
    const real = realpathSync(file);
    const kind = statSync(real);
    // a pipe or a device would be read for ever
    return (kind.isFile() || kind.isDirectory()) && (real === root || real.startsWith(root + sep));
  } catch {
    return true;
  }
}
