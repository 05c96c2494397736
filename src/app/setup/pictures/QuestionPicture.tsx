import type { Vec3 } from "../../../maths/vec3.ts";
import type { Datum, Scene } from "../../../scene/scene.ts";
import type { Question } from "../../../scene/setup/question.ts";
import { t } from "../../text/text.ts";
import { useSetup } from "../setupStore.ts";
import { DrawnPicture } from "./DrawnPictures.tsx";
import { PlacePicture } from "./PlacePicture.tsx";

interface QuestionPictureProps {
  readonly question: Question;
  readonly scene: Scene;
  readonly datum: Datum | null;
  /** The place as typed so far, or as it stands. */
  readonly at: Vec3 | null;
}

/** What to measure for a question. */
export function QuestionPicture({ question: { picture }, scene, datum, at }: QuestionPictureProps) {
  const direction = useSetup((look) => look.direction);
  if (picture.of !== "corner" && picture.of !== "place") return <DrawnPicture picture={picture} />;
  return (
    <PlacePicture
      scene={scene}
      side={picture.of === "place" ? picture.side : "left"}
      at={picture.of === "place" ? at : null}
      datum={picture.of === "place" ? datum : null}
      direction={direction}
      label={t(`setup.pictures.${picture.of}`)}
    />
  );
}
