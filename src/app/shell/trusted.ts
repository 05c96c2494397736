/**
 * The page's policy lets no plain text become markup or the address of a script (Trusted Types, W3C). Workers and the
 * service worker are the only addresses that the app hands over: they pass here when they lie in the app's own folder.
 * Markup never does: there is no other rule.
 */
interface Rules {
  createScriptURL(address: string): string;
}

const trustedTypes = Reflect.get(globalThis, "trustedTypes") as
  | { createPolicy(name: string, rules: Rules): unknown }
  | undefined;

/** The address as it is. Throws a TypeError for one outside the folder of `base`. */
export function ownScript(address: string, base: string): string {
  const folder = new URL("./", base);
  const asked = new URL(address, base);
  if (asked.origin === folder.origin && asked.pathname.startsWith(folder.pathname)) return address;
  throw new TypeError("a script from outside the app's own folder is not run");
}

// browsers without it have the rest of the policy
trustedTypes?.createPolicy("default", { createScriptURL: (address) => ownScript(address, document.baseURI) });
