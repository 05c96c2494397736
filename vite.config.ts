import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import type { Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";
import { guard } from "./src/cli/serving/guard.ts";
import { HEADERS, ISOLATION, PAGE_POLICY } from "./src/cli/serving/headers.ts";
import { packageFolders, thirdPartyText } from "./src/cli/serving/thirdParty.ts";

const here = fileURLToPath(new URL(".", import.meta.url));

const browser = "tests/browser/**/*.test.ts";
const dom = "tests/dom/**/*.test.{ts,tsx}";
const long = "tests/long/**/*.test.ts";

/**
 * The service worker keeps the whole app, samples and workers included, with the headers it came with: without a network
 * the page is isolated as with one. The page registers it (src/app/shell/update.ts) and takes a new one when asked.
 */
const offline = VitePWA({
  registerType: "prompt",
  injectRegister: false,
  manifest: {
    name: "Elbowroom",
    short_name: "Elbowroom",
    description: "Shows what touches in a rear suspension corner before the steel is cut.",
    lang: "en",
    start_url: "./",
    scope: "./",
    display: "standalone",
    theme_color: "#ffffff",
    background_color: "#f1f4f2",
    icons: [
      { src: "icon-192.png", sizes: "192x192", type: "image/png" },
      { src: "icon-512.png", sizes: "512x512", type: "image/png" },
      { src: "icon-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
      { src: "icon.svg", sizes: "any", type: "image/svg+xml" },
    ],
  },
  workbox: {
    globPatterns: ["**/*.{html,js,css,wasm,woff,woff2,svg,png,txt}"],
    maximumFileSizeToCacheInBytes: 20_000_000,
    navigateFallback: "index.html",
    // one file: to fetch its runtime by a string the service worker would need a policy of its own
    inlineWorkboxRuntime: true,
  },
});

/**
 * What the page imports by and by is fetched and parsed from the start, beside what runs: the shell and the 3D picture.
 */
const early: Plugin = {
  name: "early",
  apply: "build",
  transformIndexHtml: {
    order: "post",
    handler(_html, { bundle }) {
      const chunks = Object.values(bundle ?? {}).filter((file) => file.type === "chunk");
      const wanted = new Set<string>();
      const want = (name: string): void => {
        if (wanted.has(name)) return;
        wanted.add(name);
        for (const other of chunks.find(({ fileName }) => fileName === name)?.imports ?? []) want(other);
      };
      for (const { fileName, facadeModuleId } of chunks) {
        if (facadeModuleId && /[/](show|Viewport)[.]tsx$/.test(facadeModuleId)) want(fileName);
      }
      for (const { fileName, isEntry, imports } of chunks) {
        if (isEntry) for (const name of [fileName, ...imports]) wanted.delete(name);
      }
      return [...wanted].map((name) => ({
        tag: "link",
        attrs: { rel: "modulepreload", crossorigin: true, href: `./${name}` },
        injectTo: "head" as const,
      }));
    },
  },
};

/** A library that also reads files in Node asks for them by and by; the app never does. */
const noNode = (): Plugin => ({
  name: "no-node",
  apply: "build",
  enforce: "pre",
  resolveId: (id) => (/^node:(fs|path)$/.test(id) ? "\0none" : null),
  load: (id) => (id === "\0none" ? "export default {};" : null),
});

const shipped = new Set<string>();

/** Ships the licences of all that is in the build, workers included, which are built before the page is put together. */
const licences = (isPage: boolean): Plugin => ({
  name: "licences",
  apply: "build",
  generateBundle: {
    order: "post",
    handler() {
      for (const folder of packageFolders(this.getModuleIds(), here)) shipped.add(folder);
      if (!isPage) return;
      this.emitFile({ type: "asset", fileName: "third-party.txt", source: thirdPartyText(here, shipped) });
    },
  },
});

/** The page keeps to its policy wherever its folder lies; the server of this project sends it with every answer too. */
const strict: Plugin = {
  name: "strict",
  transformIndexHtml: {
    order: "pre",
    handler: (_html, { server }) =>
      // while developing, what changes comes as script and style in the page
      server
        ? []
        : [
            {
              tag: "meta",
              attrs: { "http-equiv": "Content-Security-Policy", content: PAGE_POLICY },
              injectTo: "head-prepend" as const,
            },
          ],
  },
  configurePreviewServer({ config, middlewares }) {
    middlewares.use(guard(resolve(config.root, config.build.outDir)));
  },
};

export default defineConfig({
  root: `${here}src/app`,
  base: "./",
  // a path that leads nowhere is told as such
  appType: "mpa",
  plugins: [noNode(), react(), strict, early, licences(true), offline],
  worker: { format: "es", plugins: () => [noNode(), licences(false)] },
  resolve: { dedupe: ["three", "react", "react-dom"] },
  // a file put into another as text would need a policy that lets such addresses pass
  build: {
    assetsInlineLimit: 0,
    target: "es2022",
    outDir: `${here}dist`,
    emptyOutDir: true,
    chunkSizeWarningLimit: 1200,
  },
  server: { host: "127.0.0.1", cors: false, headers: ISOLATION },
  preview: { host: "127.0.0.1", cors: false, headers: HEADERS },
  test: {
    projects: [
      {
        extends: true,
        root: here,
        test: {
          name: "unit",
          environment: "node",
          // a loaded machine must not fail a test; nothing is timed
          testTimeout: 60_000,
          include: ["tests/**/*.test.ts"],
          exclude: [browser, dom, long],
        },
      },
      {
        extends: true,
        root: here,
        test: {
          name: "dom",
          environment: "happy-dom",
          include: [dom],
          setupFiles: ["tests/dom/patience.ts"],
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        root: here,
        test: {
          name: "browser",
          environment: "node",
          include: [browser],
          globalSetup: ["tests/browser/serve.ts"],
          fileParallelism: false,
          testTimeout: 180_000,
          hookTimeout: 60_000,
          // a walk in a real browser on a loaded machine may miss a moment; what is broken fails again
          retry: 2,
          expect: { poll: { timeout: 60_000 } },
        },
      },
      {
        extends: true,
        root: here,
        test: { name: "long", environment: "node", include: [long], testTimeout: 3_600_000 },
      },
    ],
  },
});
