/** Whether the browser gives WebGL 2. Asked once: every context asked for counts against the browser's limit. */
export function hasWebGl2(): boolean {
  const context = document.createElement("canvas").getContext("webgl2");
  if (!context) return false;
  context.getExtension("WEBGL_lose_context")?.loseContext();
  return true;
}

/** Whether the context draws with the processor alone. */
export function isSoftware(gl: WebGL2RenderingContext): boolean {
  const info = gl.getExtension("WEBGL_debug_renderer_info");
  const name = String(gl.getParameter(info?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER));
  return /swiftshader|llvmpipe|softpipe|software|basic render/i.test(name);
}
