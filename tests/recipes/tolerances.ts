/** Round outsides are drawn up to 0.1 mm too large, and turned differently about their axis in an image. */
export const MIRROR_MM = 0.2;
