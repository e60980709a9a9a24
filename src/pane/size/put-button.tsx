import { mergeClasses } from "@fluentui/react-components";
import type { ScreenPlan, ScreenWish } from "../../science/sizing-plan";
import { size } from "../../words/size";
import { putSizing } from "../../workbook/put-sizing";
import { ActionButton } from "../action-button";
import { useScreenStyles } from "../styles";
import type { Units } from "./units";

const words = size.put;

/** Writes the plan as a sheet of live formulas, and says where. What was said of one plan is not true of the next. */
export function PutButton({ wish, plan, units }: { wish: ScreenWish; plan: ScreenPlan; units: Units }) {
  const shared = useScreenStyles();
  return (
    <>
      <ActionButton label={words.button} busy={words.busy} refused={words.refused} act={async () => words.done(await putSizing(wish, plan))} about={plan} primary />
      <p className={mergeClasses(shared.text, shared.quiet)}>
        {words.explained} {units === "us" && words.metric}
      </p>
    </>
  );
}
