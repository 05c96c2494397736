/** The view and all that draws it, fetched apart from the page: once, whoever asks first. */
export async function fetchViewport() {
  const { Viewport } = await import("./Viewport.tsx");
  return { default: Viewport };
}
