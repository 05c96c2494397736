/**
 * What stands as the revision of a sheet: the builder's own letter or number, and the first eight digits of the scene's fingerprint: two
 * sheets with the same digits are of the same scene.
 */
export function revisionText(named: string, fingerprint: string): string {
  const digits = fingerprint.slice(0, 8);
  return named.trim() === "" ? digits : `${named.trim()} · ${digits}`;
}
