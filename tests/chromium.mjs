// Finds a Chromium for the browser tests; as root on Debian it installs the distribution's own.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";

const PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/snap/bin/chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** Path of a Chromium; null where there is none. The environment variable CHROMIUM goes first. */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) return existsSync(named) ? named : null;
  return PLACES.find((place) => existsSync(place)) ?? null;
}

/** As findChromium, but installs it with apt on Debian and its kin when run as root. */
export function needChromium() {
  const found = findChromium();
  if (found) return found;
  if (process.getuid?.() === 0 && isDebian()) {
    console.log("Installing Chromium for the browser tests …");
    const options = { stdio: "inherit", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } };
    spawnSync("apt-get", ["update", "-qq"], options);
    spawnSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], options);
  }
  return findChromium();
}

/** Flags for a Chromium without a display or a GPU. */
export const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--use-gl=angle",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-dev-shm-usage",
];

function isDebian() {
  try {
    return /^ID(_LIKE)?=.*debian/m.test(readFileSync("/etc/os-release", "utf8"));
  } catch {
    return false;
  }
}
