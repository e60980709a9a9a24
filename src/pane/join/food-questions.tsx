import { Field, Select } from "@fluentui/react-components";
import { FOODS } from "../../science/constants/foods";
import { joinPane as words } from "../../words/join-pane";
import { useBudgetStyles } from "../budget/styles";
import { type Answers, THE_FOOD } from "./answers";

const NAMES = FOODS.map(({ name }) => name).sort((a, b) => a.localeCompare(b, "en"));
const LATER = "later";

/** Foods that the built-in table does not know under the keeper's name, and the one that nothing names. */
export function FoodQuestions({ names, answers, onFood }: { names: readonly string[]; answers: Answers; onFood: (name: string, food: string | null | undefined) => void }) {
  const styles = useBudgetStyles();
  return names.map((name) => {
    const food = answers.foods[name];
    return (
      <div key={name} className={styles.card}>
        <Field label={name === THE_FOOD ? words.theFood : words.foodOf(name)} hint={name === THE_FOOD ? words.theFoodHint : words.foodOfHint}>
          <Select value={food === undefined ? "" : (food ?? LATER)} onChange={(_event, { value }) => onFood(name, value === "" ? undefined : value === LATER ? null : value)}>
            <option value="">{words.choose}</option>
            {NAMES.map((one) => (
              <option key={one}>{one}</option>
            ))}
            <option value={LATER}>{words.fillLater}</option>
          </Select>
        </Field>
      </div>
    );
  });
}
