import { WebGLRenderer, type WebGLRendererParameters } from "three";

/**
 * The picture's renderer; where the browser gives no WebGL 2, `onNone` is called and the promise stays open, for the
 * canvas that waits for it is taken away. No context is asked for beforehand: with software drawing each costs half a second.
 */
export function createRenderer(defaults: WebGLRendererParameters, onNone: () => void): Promise<WebGLRenderer> {
  try {
    const renderer = new WebGLRenderer({
      ...defaults,
      antialias: false,
      alpha: false,
      stencil: false,
      powerPreference: "high-performance",
    });
    // asking for compile logs makes the page wait for every program; the tests read the pictures instead
    renderer.debug.checkShaderErrors = import.meta.env.DEV;
    return Promise.resolve(renderer);
  } catch {
    onNone();
    return new Promise(() => {});
  }
}

/** Whether the context draws with the processor alone. */
export function isSoftware(gl: WebGL2RenderingContext): boolean {
  const info = gl.getExtension("WEBGL_debug_renderer_info");
  const name = String(gl.getParameter(info?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER));
  return /swiftshader|llvmpipe|softpipe|software|basic render/i.test(name);
}
