/** Whether the browser gives WebGL 2. Asked once: every context asked for counts against the browser's limit. */
export function hasWebGl2(): boolean {
  const context = document.createElement("canvas").getContext("webgl2");
  if (!context) return false;
  context.getExtension("WEBGL_lose_context")?.loseContext();
  return true;
}
