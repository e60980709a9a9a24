import { Field, Input, makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { useScreenStyles } from "../styles";

const useStyles = makeStyles({
  field: { minWidth: 0, alignContent: "start" },
  box: { width: "100%", minWidth: 0, "& > input": { width: "0", flexGrow: 1, fontVariantNumeric: "tabular-nums" } },
  unit: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, whiteSpace: "nowrap" },
});

interface QuantityBoxProps {
  name: string;
  unit: string;
  text: string;
  onText: (text: string) => void;
  problem?: string;
  /** Shows no label; the name is still the box's own. */
  bare?: boolean;
  className?: string;
}

/** A box for one figure with its unit inside it; what is wrong stands under it and belongs to it. */
export function QuantityBox({ name, unit, text, onText, problem, bare = false, className }: QuantityBoxProps) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const label = (
    <>
      {name}
      <span className={shared.spoken}>, {unit}</span>
    </>
  );
  return (
    <Field className={mergeClasses(styles.field, className)} label={bare ? undefined : label} validationState={problem ? "error" : "none"} validationMessage={problem}>
      <Input
        className={styles.box}
        inputMode="decimal"
        autoComplete="off"
        value={text}
        aria-label={bare ? `${name}, ${unit}` : undefined}
        contentAfter={
          <span aria-hidden="true" className={styles.unit}>
            {unit}
          </span>
        }
        onChange={(_event, { value }) => onText(value)}
      />
    </Field>
  );
}
