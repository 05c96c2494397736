import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type PreviewServer, preview } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { refusedPath } from "../../src/cli/serving/guard.ts";
import { HEADERS, PAGE_POLICY } from "../../src/cli/serving/headers.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const SECRET = "not for the page";
const isPosix = process.platform !== "win32";
let home: string;
let folder: string;
let server: PreviewServer;
let port: number;

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), "elbowroom-"));
  folder = join(home, "dist");
  mkdirSync(join(folder, "assets"), { recursive: true });
  mkdirSync(join(home, "dist-beside"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Elbowroom</title>");
  writeFileSync(join(folder, "assets/a.js"), "export {};");
  writeFileSync(join(folder, ".hidden"), SECRET);
  writeFileSync(join(home, "secret.txt"), SECRET);
  writeFileSync(join(home, "dist-beside/secret.txt"), SECRET);
  if (isPosix) {
    symlinkSync(join(home, "secret.txt"), join(folder, "link.txt"));
    symlinkSync(home, join(folder, "up"));
    symlinkSync(join(home, "dist-beside"), join(folder, "beside"));
    symlinkSync(join(folder, "assets/a.js"), join(folder, "own.js"));
    execFileSync("mkfifo", [join(folder, "pipe")]);
  }
  server = await preview({
    root: `${root}src/app`,
    configFile: `${root}vite.config.ts`,
    logLevel: "silent",
    build: { outDir: folder },
    preview: { port: 0 },
  });
  port = Number(new URL(server.resolvedUrls!.local[0]!).port);
});
afterAll(async () => {
  await server?.close();
  rmSync(home, { recursive: true });
});

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
}

/** What the server says to a request written down to the byte: a browser, or fetch, would mend the path first. */
function ask(path: string, { method = "GET", host = `127.0.0.1:${port}`, more = "" } = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, "127.0.0.1", () => {
      socket.write(
        `${method} ${path} HTTP/1.1\r\n${host === "" ? "" : `Host: ${host}\r\n`}${more}Connection: close\r\n\r\n`,
      );
    });
    let text = "";
    socket.setEncoding("latin1");
    socket.on("data", (data: string) => {
      text += data;
    });
    socket.on("error", reject);
    socket.on("close", () => {
      const [head = "", ...rest] = text.split("\r\n\r\n");
      const [first = "", ...lines] = head.split("\r\n");
      const headers = lines.map((line) => {
        const at = line.indexOf(":");
        return [line.slice(0, at).toLowerCase(), line.slice(at + 1).trim()];
      });
      resolve({
        status: Number(first.split(" ")[1]),
        headers: Object.fromEntries(headers),
        body: rest.join("\r\n\r\n"),
      });
    });
  });
}

describe("the server that shows the app", () => {
  it("listens on the loopback address and no other", async () => {
    expect(server.httpServer.address()).toMatchObject({ address: "127.0.0.1" });
    expect(server.resolvedUrls!.network).toEqual([]);
    const others = Object.values(networkInterfaces())
      .flatMap((all) => all ?? [])
      .filter(({ internal, family }) => !internal && family === "IPv4");
    for (const { address } of others) {
      const reached = await new Promise((resolve) => {
        const socket = connect(port, address, () => resolve("reached"));
        socket.on("error", (error: NodeJS.ErrnoException) => resolve(error.code));
      });
      expect(reached, address).toBe("ECONNREFUSED");
    }
  });

  it.each(["/", "/?project=1", "/assets/a.js", "/index.html"])("serves %s with every header", async (path) => {
    const { status, headers } = await ask(path);
    expect(status).toBe(200);
    for (const [name, value] of Object.entries(HEADERS)) expect(headers[name.toLowerCase()], name).toBe(value);
    expect(headers["access-control-allow-origin"]).toBeUndefined();
  });

  // ways out of a folder: common practice of attackers, no one source; RFC 3986 §5.2.4 for dot segments
  it.each([
    "/../secret.txt",
    "/../../secret.txt",
    "/assets/../../secret.txt",
    "/%2e%2e/secret.txt",
    "/%2E%2E%2Fsecret.txt",
    "/..%2fsecret.txt",
    "/%252e%252e%252fsecret.txt",
    "/..%5csecret.txt",
    "/..\\secret.txt",
    "/....//secret.txt",
    "/.%00./secret.txt",
    "/secret.txt%00.js",
    "/..;/secret.txt",
    "/%c0%ae%c0%ae/secret.txt",
    "/../dist-beside/secret.txt",
    "//secret.txt",
    "http://127.0.0.1/../secret.txt",
    "file:///etc/passwd",
    "/@fs/etc/passwd",
    "/C:/Windows/win.ini",
    "/.hidden",
    "/.git/config",
    "/src/app/main.tsx",
    "/package.json",
    "/node_modules/vite/package.json",
    "/nothing",
  ])("gives nothing for %s", async (path) => {
    const { status, body } = await ask(path);
    expect([400, 404]).toContain(status);
    expect(body).not.toContain(SECRET);
    expect(body).not.toMatch(/root:|"name"/);
  });

  it.runIf(isPosix)("follows no link that leads out of its folder, waits at no pipe", async () => {
    for (const path of ["/link.txt", "/up/secret.txt", "/beside/secret.txt", "/up/", "/pipe"]) {
      const { status, body } = await ask(path);
      expect(status, path).toBe(404);
      expect(body, path).not.toContain(SECRET);
    }
    expect((await ask("/own.js")).status).toBe(200);
  });

  // DNS rebinding: the browser of this machine asks by a name that somebody else's name server turned to 127.0.0.1
  it.each([
    "elsewhere.example",
    "127.0.0.1.elsewhere.example",
    "localhost.elsewhere.example",
    "10.0.0.7",
    "0.0.0.0",
    "user@localhost",
    "localhost:80:80",
    "localhost/x",
  ])("answers nobody who calls it %s", async (host) => {
    const { status, body } = await ask("/", { host });
    expect(status).toBeGreaterThanOrEqual(400);
    expect(body).not.toContain("<title>Elbowroom");
  });

  it("answers nobody who says no name", async () => {
    expect((await ask("/", { host: "" })).status).toBe(400);
  });

  it("answers by each of its own names", async () => {
    for (const host of [`localhost:${port}`, `127.0.0.1:${port}`, `[::1]:${port}`]) {
      expect((await ask("/", { host })).status, host).toBe(200);
    }
  });

  it("answers no page from elsewhere", async () => {
    for (const origin of ["http://elsewhere.example", "null", "https://localhost.elsewhere.example"]) {
      expect((await ask("/", { more: `Origin: ${origin}\r\n` })).status, origin).toBe(403);
    }
    expect((await ask("/", { more: `Origin: http://localhost:${port}\r\n` })).status).toBe(200);
  });

  it.each(["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "PROPFIND"])("refuses %s", async (method) => {
    const { status, headers } = await ask("/", { method });
    expect(status).toBe(405);
    // RFC 9110 §15.5.6
    expect(headers.allow).toBe("GET, HEAD");
    expect(headers["content-security-policy"]).toBe(HEADERS["Content-Security-Policy"]);
  });

  it("opens no other line (upgrade)", async () => {
    const { status } = await ask("/", {
      more: "Upgrade: websocket\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n",
    });
    expect(status).not.toBe(101);
  });
});

describe("a path", () => {
  it("that a file has may be asked for", () => {
    expect(refusedPath(folder, "/assets/a.js?x=1#y")).toBeNull();
    expect(refusedPath(folder, "/")).toBeNull();
  });

  it("that is not well encoded is told as such", () => {
    expect(refusedPath(folder, "/%")?.[0]).toBe(400);
    expect(refusedPath(folder, "/%zz")?.[0]).toBe(400);
  });
});

describe("the page's policy", () => {
  const rules = new Map(PAGE_POLICY.split("; ").map((rule) => [rule.split(" ")[0], rule.split(" ").slice(1)]));

  it("lets no text become script or style, and names nobody else", () => {
    expect(PAGE_POLICY).not.toMatch(/unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|unsafe-hashes|\*|https?:|data:/);
    expect(rules.get("default-src")).toEqual(["'none'"]);
    expect(rules.get("script-src")).toEqual(["'self'", "'wasm-unsafe-eval'"]);
  });

  it("is the server's too, which adds that nobody may frame it", () => {
    expect(HEADERS["Content-Security-Policy"]).toBe(`${PAGE_POLICY}; frame-ancestors 'none'`);
  });
});
