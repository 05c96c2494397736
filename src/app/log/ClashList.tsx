import { useId, useMemo, useState } from "react";
import { type ClashItem, clashList } from "../../buildlog/clashes.ts";
import { CLASH_STATES, type ClashState } from "../../buildlog/decision.ts";
import { newId } from "../../buildlog/make.ts";
import { GapMark } from "../marks/GapMark.tsx";
import { TextLine } from "../parts/TextLine.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { log, useLog } from "./cards.ts";
import { clashGap, clashName, clashStanding, clashWhere } from "./clashWords.ts";

const SHOWN = ["open", "accepted", "fixed", "all"] as const;

/** Everything that any card found, who sees to it, and how it stands. */
export function ClashList() {
  const rows = useLog((state) => state.rows);
  const decisions = useLog((state) => state.decisions);
  const [shown, setShown] = useState<(typeof SHOWN)[number]>("open");
  const items = useMemo(
    () =>
      clashList(
        rows.map(({ digest }) => digest),
        decisions,
      ),
    [rows, decisions],
  );
  const count = (state: ClashState) => items.filter((item) => item.state === state).length;
  const listed = items.filter((item) => shown === "all" || item.state === shown);
  const scenes = new Set(items.map(({ scene }) => scene)).size;
  return (
    <section className="log-card clashes" aria-label={t("log.clashes.name")}>
      <header>
        <h3>{t("log.clashes.name")}</h3>
        <Choices
          label={t("log.clashes.show")}
          options={SHOWN.map((value) => ({
            value,
            name: value === "all" ? t("log.clashes.all") : t(`log.clashes.counted.${value}`, { count: count(value) }),
          }))}
          value={shown}
          onChoose={setShown}
        />
      </header>
      {listed.length === 0 && (
        <p className="quiet">{items.length === 0 ? t("log.clashes.nothing") : t(`log.clashes.none.${shown}`)}</p>
      )}
      <ul>
        {listed.map((item) => (
          <Item key={`${item.scene} ${item.key}`} item={item} showsScene={scenes > 1} />
        ))}
      </ul>
    </section>
  );
}

function Item({ item, showsScene }: { item: ClashItem; showsScene: boolean }) {
  const unit = useApp((state) => state.unit);
  const [open, setOpen] = useState(false);
  const document = useApp((state) => (state.document?.title === item.scene ? state.document : null));
  const name = clashName(item.finding, document);
  const mark = item.finding.of.kind === "limit" ? "limit" : item.finding.verdict;
  return (
    <li data-state={item.state}>
      <GapMark kind={mark} size={22} />
      <div>
        <b>
          <span className="unseen">{t(`card.marks.${mark}`)}: </span>
          {name}
        </b>
        <p>{clashGap(item.finding, unit)}</p>
        <p className="small quiet">
          {clashWhere(item, unit)}
          {showsScene ? ` ${item.scene}` : ""}
        </p>
      </div>
      <div>
        <p>{clashStanding(item)}</p>
        <p className="small quiet">
          {item.owner ? t("log.clashes.seesTo", { owner: item.owner }) : t("log.clashes.nobody")}
        </p>
      </div>
      <button
        type="button"
        className="button"
        aria-expanded={open}
        aria-label={t("log.clashes.decideOn", { name })}
        onClick={() => setOpen(!open)}
      >
        {t("log.clashes.decide")}
      </button>
      {open && <Deciding item={item} onDone={() => setOpen(false)} />}
    </li>
  );
}

function Deciding({ item, onDone }: { item: ClashItem; onDone(): void }) {
  const [state, setState] = useState<ClashState>(item.state);
  const [owner, setOwner] = useState(item.owner);
  const [why, setWhy] = useState(item.by === "builder" ? item.why : "");
  const [missing, setMissing] = useState(false);
  const id = useId();
  return (
    <form
      className="deciding"
      onSubmit={(event) => {
        event.preventDefault();
        if (state === "accepted" && why.trim() === "") return setMissing(true);
        const { scene, key } = item;
        const made = new Date().toISOString();
        void log.getState().decide([{ id: newId(), scene, key, state, owner: owner.trim(), why: why.trim(), made }]);
        onDone();
      }}
    >
      <Choices
        label={t("log.clashes.state")}
        options={CLASH_STATES.map((value) => ({ value, name: t(`log.clashes.states.${value}`) }))}
        value={state}
        onChoose={setState}
      />
      <TextLine label={t("log.clashes.owner")} value={owner} onChange={setOwner} />
      <label className="field-label" htmlFor={id}>
        {state === "accepted" ? t("log.clashes.whyAccepted") : t("log.clashes.why")}
        <textarea
          id={id}
          className="field"
          rows={2}
          maxLength={2000}
          value={why}
          aria-invalid={missing && why.trim() === ""}
          onChange={(event) => setWhy(event.target.value)}
        />
      </label>
      {missing && state === "accepted" && why.trim() === "" && (
        <p className="card-trouble" role="alert">
          {t("log.clashes.whyMissing")}
        </p>
      )}
      <div className="dialog-buttons">
        <button type="button" className="button" onClick={onDone}>
          {t("log.clashes.cancel")}
        </button>
        <button type="submit" className="button go">
          {t("log.clashes.keep")}
        </button>
      </div>
    </form>
  );
}
