import { Dialog } from "@base-ui/react/dialog";
import { useMemo, useState } from "react";
import type { SceneDocument } from "../../scene/document.ts";
import type { InputError } from "../../scene/error.ts";
import { freeId, ownShape } from "../../scene/parts/parts.ts";
import { PIECE_FIELDS, type PieceKind, type PieceShape } from "../../scene/parts/pieceFields.ts";
import {
  addPieces,
  piecesOf,
  readPiece,
  shapeOfPieces,
  type TypedPiece,
  typedPiece,
  withPieces,
} from "../../scene/parts/pieces.ts";
import { PartPicture } from "../parts/PartPicture.tsx";
import { Picker } from "../parts/Picker.tsx";
import { troubleText } from "../parts/partDraft.ts";
import { editParts } from "../parts/partEdits.ts";
import { mountItems } from "../parts/partGroups.ts";
import { RoleField } from "../parts/RoleField.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { usePointsLook } from "../points/pointsStore.ts";
import { app, useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf, nameWithin } from "../words/names.ts";
import { PieceForm } from "./PieceForm.tsx";
import { closePieces, usePieces } from "./piecesStore.ts";
import "../parts/parts.css";
import "./pieces.css";

/** A part built by hand of simple pieces, or a part of the scene drawn anew that way. */
export function PiecesDialog() {
  const open = usePieces((look) => look.open);
  const document = useApp((state) => state.document);
  return (
    <Dialog.Root open={open !== null} onOpenChange={(wanted) => !wanted && closePieces()}>
      <Dialog.Portal>
        <Dialog.Backdrop className="veil" />
        <Dialog.Popup className="dialog pieces">
          {open && document && (
            <PiecesForm
              key={open.of === "part" ? open.id : ""}
              document={document}
              part={open.of === "part" ? open.id : null}
            />
          )}
        </Dialog.Popup>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

/** A draft piece by a number of its own, so that fields stay with their piece. */
interface Draft {
  readonly key: number;
  readonly piece: TypedPiece;
}

function PiecesForm({ document, part }: { document: SceneDocument; part: string | null }) {
  const unit = useApp((state) => state.unit);
  const setting = useMemo(() => ({ unit, names: Object.keys(document.points) }), [unit, document]);
  const [drafts, setDrafts] = useState<readonly Draft[]>(() => begun(document, part, unit));
  const [chosen, setChosen] = useState(() => drafts[0]?.key ?? -1);
  const [id, setId] = useState(() => freeId(document, t("pieces.newName")));
  const [on, setOn] = useState("chassis");
  const [role, setRole] = useState("");
  const [both, setBoth] = useState(false);
  const [isJudged, setJudged] = useState(false);
  const [refused, setRefused] = useState<InputError | null>(null);
  const readings = useMemo(() => drafts.map(({ piece }) => readPiece(piece, setting)), [drafts, setting]);
  const shapes = readings.flatMap(({ shape }) => (shape ? [shape] : []));
  const picture = useLastPicture(shapes);
  const isWhole = shapes.length === drafts.length && drafts.length > 0;
  const at = drafts.findIndex(({ key }) => key === chosen);
  const stands = on === "chassis" || on === "powertrain";
  const change = (next: readonly Draft[]) => {
    setDrafts(next);
    setRefused(null);
  };
  const add = (kind: PieceKind) => {
    const key = 1 + Math.max(-1, ...drafts.map((draft) => draft.key));
    change([...drafts, { key, piece: { kind, texts: {} } }]);
    setChosen(key);
    setJudged(false);
  };
  const keep = () => {
    setJudged(true);
    if (!isWhole) return setChosen(drafts[readings.findIndex(({ shape }) => shape === null)]?.key ?? chosen);
    const wanted = id.trim();
    const error =
      part === null
        ? editParts(t("pieces.steps.add", { part: wanted }), (now) =>
            addPieces(now, { id: wanted, on, role: role.trim(), mirror: stands && both, pieces: shapes }),
          )
        : editParts(t("pieces.steps.draw", { part: nameWithin(part, document) }), (now) =>
            withPieces(now, part, shapes),
          );
    setRefused(error);
    if (error) return;
    app.getState().holdPoint(null);
    usePointsLook.setState({ list: "parts" });
    app.getState().hold(part ?? wanted);
    closePieces();
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <Dialog.Title>
        {part === null ? t("pieces.newTitle") : t("pieces.editTitle", { part: nameOf(part, document) })}
      </Dialog.Title>
      <Dialog.Description className="lead">{t("pieces.lead")}</Dialog.Description>
      <div className="pieces-columns">
        <div>
          {part === null && (
            <>
              <TextLine label={t("pieces.name")} value={id} onChange={setId} />
              <RoleField document={document} value={role} onChange={setRole} />
              <Picker label={t("pieces.ridesOn")} items={mountItems(document)} value={on} onPick={setOn} />
              {stands && (
                <label className="check-line">
                  <input type="checkbox" checked={both} onChange={(event) => setBoth(event.target.checked)} />
                  <span>{t("pieces.both")}</span>
                </label>
              )}
            </>
          )}
          <h3>{t("pieces.pieces")}</h3>
          {drafts.length === 0 && <p className="fine quiet">{t("pieces.none")}</p>}
          <div className="piece-list">
            {drafts.map(({ key, piece }, i) => (
              <button
                key={key}
                type="button"
                className="button"
                aria-pressed={key === chosen}
                data-trouble={isJudged && readings[i]!.shape === null}
                onClick={() => setChosen(key)}
              >
                {t("pieces.piece", { number: i + 1, kind: t(`pieces.kinds.${piece.kind}`) })}
              </button>
            ))}
          </div>
          <fieldset className="piece-kinds" aria-label={t("pieces.add")}>
            <legend>{t("pieces.add")}</legend>
            {(Object.keys(PIECE_FIELDS) as PieceKind[]).map((kind) => (
              <button key={kind} type="button" className="button" onClick={() => add(kind)}>
                {t("pieces.addKind", { kind: t(`pieces.kinds.${kind}`) })}
              </button>
            ))}
          </fieldset>
        </div>
        <div>
          {picture && (
            <PartPicture
              made={picture}
              document={document}
              label={id || t("pieces.newTitle")}
              width={300}
              height={180}
            />
          )}
          {at >= 0 && (
            <PieceForm
              key={chosen}
              number={at + 1}
              piece={drafts[at]!.piece}
              faults={readings[at]!.faults}
              isJudged={isJudged}
              unit={unit}
              onChange={(piece) => change(drafts.with(at, { key: chosen, piece }))}
              onTakeOut={() => {
                change(drafts.toSpliced(at, 1));
                setChosen(drafts[at === 0 ? 1 : at - 1]?.key ?? -1);
              }}
            />
          )}
        </div>
      </div>
      {isJudged && !isWhole && (
        <p className="point-error" role="alert">
          {drafts.length === 0 ? t("pieces.none") : t("pieces.wrong")}
        </p>
      )}
      {refused && (
        <p className="point-error" role="alert">
          {troubleText(refused)}
        </p>
      )}
      <div className="dialog-buttons">
        <Dialog.Close className="button">{t("shell.leave")}</Dialog.Close>
        <button type="submit" className="button go">
          {t("pieces.keep")}
        </button>
      </div>
    </form>
  );
}

function begun(document: SceneDocument, part: string | null, unit: "mm" | "in"): readonly Draft[] {
  const shape = part === null ? null : ownShape(document, part);
  const pieces = shape ? (piecesOf(shape) ?? []) : [];
  return pieces.map((piece, key) => ({ key, piece: typedPiece(piece, unit) }));
}

/** Of all pieces that can be drawn so far; the same while nothing about them changes. */
function useLastPicture(shapes: readonly PieceShape[]) {
  const written = JSON.stringify(shapes);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is written tells shapes apart
  return useMemo(() => (shapes.length > 0 ? shapeOfPieces(shapes) : null), [written]);
}
