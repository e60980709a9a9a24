import { Field, Input, makeStyles, tokens, typographyStyles } from "@fluentui/react-components";
import { joinPane as words } from "../../words/join-pane";
import { useScreenStyles } from "../styles";
import { type Answers, fieldsFor, type ReadSetUp, type SetUpField } from "./answers";

const useStyles = makeStyles({
  field: { marginTop: tokens.spacingVerticalS },
  unit: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, whiteSpace: "nowrap" },
});

/** The few figures of the tank or pond without which there is no account, or only a wide one. */
export function SetUpBoxes({ answers, read, onText }: { answers: Answers; read: ReadSetUp; onText: (field: SetUpField, text: string) => void }) {
  const shared = useScreenStyles();
  const styles = useStyles();
  return (
    <>
      {fieldsFor(answers).map((field) => {
        const { label, unit, hint } = words.setUp[field];
        const problem = read.wrong[field];
        const isAmount = unit !== "";
        return (
          <Field
            key={field}
            className={styles.field}
            required={field === "volume"}
            label={
              <>
                {label}
                {isAmount && <span className={shared.spoken}>, {unit}</span>}
              </>
            }
            hint={hint}
            validationState={problem ? "error" : "none"}
            validationMessage={problem}
          >
            <Input
              inputMode={isAmount ? "decimal" : "text"}
              autoComplete="off"
              value={answers.setUp[field]}
              contentAfter={
                isAmount ? (
                  <span aria-hidden="true" className={styles.unit}>
                    {unit}
                  </span>
                ) : undefined
              }
              onChange={(_event, { value }) => onText(field, value)}
            />
          </Field>
        );
      })}
      <p className={shared.text}>{words.setUpMore}</p>
    </>
  );
}
