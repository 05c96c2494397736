import type { en } from "./en/index.ts";

/** The same keys as the English text, any words. */
export type Translation<T = typeof en> = { readonly [K in keyof T]: T[K] extends string ? string : Translation<T[K]> };
