import { Button, makeStyles, Select, tokens, typographyStyles } from "@fluentui/react-components";
import { type Dispatch, useEffect, useId, useRef } from "react";
import { FOODS } from "../../science/constants/foods";
import { size } from "../../words/size";
import { QuantityBox } from "./quantity-box";
import type { ReadForm } from "./read-form";
import { foodRows, inUnits, type SizeAction, type SizeForm } from "./size-form";

const words = size.form;

const useStyles = makeStyles({
  group: { border: "none", margin: `${tokens.spacingVerticalM} 0 0`, padding: 0, minWidth: 0 },
  legend: { ...typographyStyles.body1, padding: 0, color: tokens.colorNeutralForeground1 },
  /** In a narrow pane the food takes a line of its own, so that its whole name can be read. */
  row: { display: "flex", flexWrap: "wrap", gap: `${tokens.spacingVerticalXS} ${tokens.spacingHorizontalS}`, alignItems: "flex-start", margin: `${tokens.spacingVerticalXS} 0 ${tokens.spacingVerticalM}` },
  amount: { flex: "1 1 92px", minWidth: 0 },
  select: { flex: "100 1 250px", minWidth: 0, "& > select": { width: "100%", textOverflow: "ellipsis" } },
  add: { marginTop: tokens.spacingVerticalXXS },
  problem: { ...typographyStyles.caption1, margin: `${tokens.spacingVerticalXS} 0 0`, color: tokens.colorStatusDangerForeground1 },
});

/** By name, which a native list finds while it is typed; no search box is needed beside it. */
const NAMES = FOODS.map(({ name }) => name).sort((a, b) => a.localeCompare(b, "en"));

/** What is fed a day: one row a food. */
export function FoodList({ form, read, dispatch }: { form: SizeForm; read: ReadForm; dispatch: Dispatch<SizeAction> }) {
  const styles = useStyles();
  const rows = foodRows(form);
  const list = useRef<HTMLFieldSetElement>(null);
  const problemId = useId();
  useFocusAfterChange(list, rows.length);
  return (
    <fieldset ref={list} className={styles.group} aria-describedby={read.foods === null ? undefined : problemId}>
      <legend className={styles.legend}>{words.foods}</legend>
      {rows.map(({ id, name, amount }, place) => (
        <div key={id} className={styles.row}>
          <Select className={styles.select} aria-label={words.food(place + 1)} value={name} onChange={(_event, { value }) => dispatch({ type: "food", id, name: value })}>
            {NAMES.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </Select>
          <QuantityBox
            bare
            className={styles.amount}
            name={words.amount(place + 1)}
            unit={words.unit.mass[form.units]}
            text={inUnits(amount, "mass", form.units)}
            problem={read.amounts[id]}
            onText={(text) => dispatch({ type: "amount", id, text })}
          />
          <Button appearance="subtle" icon={<Cross />} aria-label={words.removeFood(name)} title={words.remove} onClick={() => dispatch({ type: "remove", id })} />
        </div>
      ))}
      {read.foods !== null && (
        <p id={problemId} role="alert" className={styles.problem}>
          {read.foods}
        </p>
      )}
      <Button size="small" className={styles.add} onClick={() => dispatch({ type: "add" })}>
        {words.add}
      </Button>
    </fieldset>
  );
}

/** A new row takes the focus; when one is removed its button is gone, and the focus goes to the last row or to the button below. */
function useFocusAfterChange(list: React.RefObject<HTMLFieldSetElement | null>, count: number): void {
  const before = useRef(count);
  useEffect(() => {
    const [was, element] = [before.current, list.current];
    before.current = count;
    // A change of the water changes the rows too, and then the focus is elsewhere and stays there.
    const elsewhere = document.activeElement !== document.body && !element?.contains(document.activeElement);
    if (was === count || !element || elsewhere) return;
    const last = [...element.querySelectorAll<HTMLElement>("select")].pop();
    (last ?? [...element.querySelectorAll<HTMLElement>("button")].pop())?.focus();
  }, [list, count]);
}

function Cross() {
  return (
    <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
      <path d="M2 2 L10 10 M10 2 L2 10" stroke="currentColor" strokeWidth="1.5" strokeLinecap="round" />
    </svg>
  );
}
