/** The scene file as the builder wrote it. */
export interface SceneDocument {
  readonly title: string;
}
