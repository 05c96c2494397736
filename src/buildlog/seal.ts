import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { withBytes } from "./bytesOf.ts";
import type { ClashDecision } from "./decision.ts";
import type { Card } from "./entry.ts";
import { canonicalJson } from "./hash.ts";

/** SHA-256 (FIPS 180-4) as 64 hex digits. */
export function sha256Of(content: Uint8Array | string): string {
  return bytesToHex(sha256(typeof content === "string" ? new TextEncoder().encode(content) : content));
}

/**
 * The card's seal: SHA-256 of its canonical JSON with each picture and photo in it given by its own SHA-256. The same in
 * whatever file the card lies.
 */
export function sealOf(card: Card): string {
  return sha256Of(canonicalJson(withBytes(card, (bytes) => sha256Of(bytes as Uint8Array))));
}

/** The seal of a whole log, of its cards' seals in their order and all decisions. */
export function logSeal(seals: readonly string[], decisions: readonly ClashDecision[]): string {
  return sha256Of(canonicalJson({ seals, decisions }));
}
