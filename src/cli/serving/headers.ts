/**
 * What the built page may do (Content Security Policy Level 3, W3C). All that it runs and reads is its own; nothing is
 * asked of elsewhere, no text becomes code, no page may frame it.
 */
const POLICY: Readonly<Record<string, readonly string[]>> = {
  "default-src": ["'none'"],
  // the kernel, the simplifier and the drawing program are WebAssembly; the word allows no eval of text
  "script-src": ["'self'", "'wasm-unsafe-eval'"],
  "worker-src": ["'self'"],
  // React writes styles by the object model, which the policy lets pass; style elements and attributes are refused
  "style-src": ["'self'"],
  // pictures of cards, photos and sheets are made in memory
  "img-src": ["'self'", "blob:"],
  "font-src": ["'self'"],
  "connect-src": ["'self'"],
  "manifest-src": ["'self'"],
  "base-uri": ["'none'"],
  "form-action": ["'none'"],
  // Trusted Types (W3C): no text becomes markup; addresses of workers pass src/app/shell/trusted.ts
  "require-trusted-types-for": ["'script'"],
  "trusted-types": ["default"],
};

function written(policy: Readonly<Record<string, readonly string[]>>): string {
  return Object.entries(policy)
    .map(([name, values]) => `${name} ${values.join(" ")}`)
    .join("; ");
}

/** The policy as a meta element may hold it: wherever the built folder is served from, the page keeps to it. */
export const PAGE_POLICY = written(POLICY);

/** A page isolated in this way may share memory with its workers. */
export const ISOLATION = {
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Embedder-Policy": "require-corp",
  "Cross-Origin-Resource-Policy": "same-origin",
} as const;

/** What every answer of the server on this machine carries. Workers keep to the policy of their own answer. */
export const HEADERS = {
  ...ISOLATION,
  "Content-Security-Policy": written({ ...POLICY, "frame-ancestors": ["'none'"] }),
  "X-Content-Type-Options": "nosniff",
  "X-Frame-Options": "DENY",
  "Referrer-Policy": "no-referrer",
  "Permissions-Policy":
    "camera=(), microphone=(), geolocation=(), display-capture=(), payment=(), usb=(), serial=(), hid=(), bluetooth=(), midi=()",
} as const;
