import { Field, makeStyles, mergeClasses, Select, tokens } from "@fluentui/react-components";
import { type Dispatch, memo, type ReactNode } from "react";
import type { Setting } from "../../science/constants/algae";
import type { WaterKind } from "../../science/constants/sizing-start";
import { size } from "../../words/size";
import { useScreenStyles } from "../styles";
import { FoodList } from "./food-list";
import { QuantityBox } from "./quantity-box";
import { type ReadForm, unitOf } from "./read-form";
import { type FieldName, settingOf, shownText, type SizeAction, type SizeForm } from "./size-form";
import type { Units } from "./units";

const words = size.form;

const useStyles = makeStyles({
  grid: { display: "grid", gridTemplateColumns: "minmax(0, 1fr) minmax(0, 1fr)", columnGap: tokens.spacingHorizontalM, rowGap: tokens.spacingVerticalM, marginTop: tokens.spacingVerticalM },
  /** The unit of light is long. */
  light: { gridTemplateColumns: "minmax(0, 3fr) minmax(0, 2fr)" },
  whole: { gridTemplateColumns: "minmax(0, 1fr)" },
  choice: { minWidth: 0, "& select": { width: "100%" } },
  hint: { margin: `${tokens.spacingVerticalM} 0 0` },
});

interface FormProps {
  form: SizeForm;
  read: ReadForm;
  dispatch: Dispatch<SizeAction>;
}

/** All that a size depends on, two boxes to a row, in the order in which a keeper knows it: water, food, readings, light, sheet. Not drawn again for an answer that comes later. */
export const SizeFormView = memo(function SizeFormView({ form, read, dispatch }: FormProps) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const box = (field: FieldName): ReactNode => (
    <QuantityBox
      name={words.fields[field]}
      unit={unitOf(field, form)}
      text={shownText(form, field)}
      problem={read.fields[field]}
      onText={(text) => dispatch({ type: "field", field, text })}
    />
  );
  return (
    <>
      <h3 className={shared.subheading}>{words.title}</h3>
      <div className={styles.grid}>
        <Choice label={words.water} options={words.waters} value={form.water} onValue={(water) => dispatch({ type: "water", water: water as WaterKind })} />
        <Choice label={words.units} options={words.unitNames} value={form.units} onValue={(units) => dispatch({ type: "units", units: units as Units })} />
      </div>
      <FoodList form={form} read={read} dispatch={dispatch} />
      <div className={styles.grid}>
        {box("volume")}
        {box("changed")}
        {box("no3")}
        {box("po4")}
        {box("temperature")}
        {box("retained")}
      </div>
      <div className={mergeClasses(styles.grid, styles.light)}>
        {box("light")}
        {box("hours")}
      </div>
      <div className={styles.grid}>
        {box("width")}
        <Choice label={words.sides} options={words.sidesNames} value={String(form.sides)} onValue={(sides) => dispatch({ type: "sides", sides: sides === "1" ? 1 : 2 })} />
      </div>
      <div className={mergeClasses(styles.grid, styles.whole)}>
        <Choice label={words.setting} options={words.settings} value={settingOf(form)} onValue={(setting) => dispatch({ type: "setting", setting: setting as Setting })} />
      </div>
      <p className={mergeClasses(shared.text, shared.quiet, styles.hint)}>{words.startHint}</p>
    </>
  );
});

interface ChoiceProps {
  label: string;
  options: Readonly<Record<string, string>>;
  value: string;
  onValue: (value: string) => void;
}

function Choice({ label, options, value, onValue }: ChoiceProps) {
  const styles = useStyles();
  return (
    <Field label={label} className={styles.choice}>
      <Select value={value} onChange={(_event, { value: chosen }) => onValue(chosen)}>
        {Object.entries(options).map(([key, text]) => (
          <option key={key} value={key}>
            {text}
          </option>
        ))}
      </Select>
    </Field>
  );
}
