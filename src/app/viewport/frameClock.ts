/** Asks the GPU when a frame is done, without stopping for it. */
export class FrameClock {
  readonly #gl: WebGL2RenderingContext;
  #sync: WebGLSync | null = null;
  #timer = 0;
  #started_ms = 0;

  constructor(gl: WebGL2RenderingContext) {
    this.#gl = gl;
  }

  /** The last frame is still being drawn: another one now would only queue up behind it. */
  get busy(): boolean {
    return this.#sync !== null;
  }

  start(now_ms: number): void {
    this.#started_ms = now_ms;
  }

  /** Call after the frame's last command. `done` gets the time from start to last pixel. */
  end(done: (frame_ms: number) => void): void {
    this.stop();
    this.#sync = this.#gl.fenceSync(this.#gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    this.#gl.flush();
    const poll = () => {
      const gl = this.#gl;
      if (this.#sync === null) return;
      const status = gl.clientWaitSync(this.#sync, 0, 0);
      if (status === gl.TIMEOUT_EXPIRED) {
        this.#timer = window.setTimeout(poll, 4);
        return;
      }
      this.stop();
      done(performance.now() - this.#started_ms);
    };
    this.#timer = window.setTimeout(poll, 1);
  }

  /** After a lost context: what was asked will never be answered. */
  forget(): void {
    window.clearTimeout(this.#timer);
    this.#sync = null;
  }

  stop(): void {
    window.clearTimeout(this.#timer);
    if (this.#sync !== null) this.#gl.deleteSync(this.#sync);
    this.#sync = null;
  }
}
