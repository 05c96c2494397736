import type { SceneDocument } from "../../scene/document.ts";
import type { Means } from "../../studies/asBuilt/means.ts";
import { DIRECTIONS, type Direction } from "../../studies/jig/sensitivity.ts";
import { Picker } from "../parts/Picker.tsx";
import { SizeField } from "../parts/SizeField.tsx";
import { Choices } from "../shell/Choices.tsx";
import { useApp } from "../store/useApp.ts";
import { t } from "../text/text.ts";
import { nameOf } from "../words/names.ts";
import { useAsBuiltLook } from "./asBuiltStore.ts";
import { changedMeans, firstMeans, linksOf, type MeansKind } from "./meansEdit.ts";
import { memberMounts } from "./welded.ts";

const KINDS = (["slot", "shim", "adjuster"] as const).map((value) => ({
  value,
  name: t(`asBuilt.means.kinds.${value}`),
}));
const WAYS = DIRECTIONS.map((value) => ({ value, name: t(`asBuilt.directions.${value}`) }));

/** What can be set once all is welded: slots, shims and adjusters, each side alike. */
export function MeansForm({ document }: { document: SceneDocument }) {
  const means = useAsBuiltLook((state) => state.means);
  const set = (next: readonly Means[]) => useAsBuiltLook.setState({ means: next });
  const first = firstMeans(document, means.length);
  return (
    <details className="loads-how">
      <summary>{t("asBuilt.means.title", { count: means.length })}</summary>
      {means.map((each, i) => (
        <MeansRow
          // a row is known by its place: two may be alike
          // biome-ignore lint/suspicious/noArrayIndexKey: rows are only added at the end or taken out by hand
          key={i}
          number={i + 1}
          means={each}
          document={document}
          onChange={(changed) => set(means.map((old, k) => (k === i ? changed : old)))}
          onRemove={() => set(means.filter((_, k) => k !== i))}
        />
      ))}
      <button type="button" className="button" disabled={!first} onClick={() => first && set([...means, first])}>
        {t("asBuilt.means.add")}
      </button>
    </details>
  );
}

interface MeansRowProps {
  readonly number: number;
  readonly means: Means;
  readonly document: SceneDocument;
  onChange(means: Means): void;
  onRemove(): void;
}

function MeansRow({ number, means, document, onChange, onRemove }: MeansRowProps) {
  const unit = useApp((state) => state.unit);
  const links = linksOf(document).map(({ id }) => ({ value: id, label: nameOf(id, document) }));
  const mounts = memberMounts(document).map(({ name, title }) => ({ value: name, label: title }));
  const kinds = links.length > 0 ? KINDS : KINDS.filter(({ value }) => value !== "adjuster");
  return (
    <fieldset className="means-row">
      <legend>{t("asBuilt.means.row", { number })}</legend>
      <Choices
        label={t("asBuilt.means.kind")}
        options={kinds}
        value={means.kind}
        onChoose={(kind: MeansKind) => onChange(changedMeans(document, means, kind))}
      />
      {means.kind === "adjuster" ? (
        <Picker
          label={t("asBuilt.means.link")}
          items={links}
          value={means.member}
          onPick={(member) => onChange({ ...means, member })}
        />
      ) : (
        <>
          <Picker
            label={t("asBuilt.means.mount")}
            items={mounts}
            value={means.point}
            onPick={(point) => onChange({ ...means, point })}
          />
          <Choices
            label={t("asBuilt.means.along")}
            options={WAYS}
            value={means.along}
            onChoose={(along: Direction) => onChange({ ...means, along })}
          />
        </>
      )}
      <SizeField
        label={t("asBuilt.means.reach")}
        value_mm={means.to_mm}
        unit={unit}
        trouble={null}
        onChange={(reach) => onChange({ ...means, from_mm: -reach, to_mm: reach })}
      />
      <SizeField
        label={t("asBuilt.means.step")}
        value_mm={means.step_mm}
        unit={unit}
        trouble={null}
        onChange={(step_mm) => onChange({ ...means, step_mm })}
      />
      <button type="button" className="button plain" onClick={onRemove}>
        {t("asBuilt.means.remove")}
      </button>
    </fieldset>
  );
}
