import { Field, Select, useId } from "@fluentui/react-components";
import { DATE_ORDERS } from "../../functions/date-text";
import { join } from "../../words/join";
import { joinPane as words } from "../../words/join-pane";
import type { Look } from "../../workbook/join/look";
import { letters } from "../../workbook/places";
import { useScreenStyles } from "../styles";
import { useBudgetStyles } from "../budget/styles";
import { type Answers, asksDateOrder, asksMeaning } from "./answers";

const LEAVE = "leave";

/** The columns that nothing on the sheet settles, one question each, with the reason why it is asked. */
export function Questions({ look, answers, onMeaning, onDateOrder }: { look: Look; answers: Answers; onMeaning: (place: number, meaning: string | null | undefined) => void; onDateOrder: (order: Answers["dateOrder"]) => void }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const ids = useId("question-");
  const date = look.columns.find(({ kind }) => kind === "date");
  const asked = look.columns.flatMap((column, place) => (asksMeaning(column) ? [{ ...column, place }] : []));
  const asksOrder = asksDateOrder(look);
  if (asked.length === 0 && !asksOrder) return <p className={shared.text}>{words.noQuestions}</p>;
  return (
    <>
      <p className={shared.text}>{words.questions(asked.length + (asksOrder ? 1 : 0))}</p>
      {asksOrder && date && (
        <div className={styles.card}>
          <Field label={words.dateOrderOf} hint={date.why}>
            <Select id={`${ids}-order`} value={answers.dateOrder ?? ""} onChange={(_event, { value }) => onDateOrder(DATE_ORDERS.find((order) => order === value))}>
              <option value="">{words.choose}</option>
              {date.dateOrders.map((order) => (
                <option key={order} value={order}>
                  {words.dateOrders[order]}
                </option>
              ))}
            </Select>
          </Field>
        </div>
      )}
      {asked.map(({ place, heading, why, choices }) => {
        const meaning = answers.meanings[place];
        return (
          <div key={place} className={styles.card}>
            <Field label={words.meaningOf(heading === "" ? words.noHeading(letters(look.found.left + place)) : `"${heading}"`)} hint={why}>
              <Select
                id={`${ids}-${place}`}
                value={meaning === undefined ? "" : (meaning ?? LEAVE)}
                onChange={(_event, { value }) => onMeaning(place, value === "" ? undefined : value === LEAVE ? null : value)}
              >
                <option value="">{words.choose}</option>
                {choices.map((choice) => (
                  <option key={choice}>{choice}</option>
                ))}
                <option value={LEAVE}>{join.leftAloneChoice}</option>
              </Select>
            </Field>
          </div>
        );
      })}
    </>
  );
}
