import { Button, makeStyles, Slider, tokens, typographyStyles, useId } from "@fluentui/react-components";
import { budgetView } from "../../words/budget-view";
import type { WhatIf } from "./ahead";

const words = budgetView.ahead;

interface Knob {
  readonly key: keyof WhatIf;
  readonly label: string;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly inWords: (value: number) => string;
}

const useStyles = makeStyles({
  knob: { marginTop: tokens.spacingVerticalS },
  line: { display: "flex", justifyContent: "space-between", columnGap: tokens.spacingHorizontalS },
  label: { ...typographyStyles.body1 },
  value: { ...typographyStyles.body1Strong, whiteSpace: "nowrap", fontVariantNumeric: "tabular-nums" },
  slider: { width: "100%", minWidth: 0, boxSizing: "border-box" },
  reset: { marginTop: tokens.spacingVerticalXS },
});

/** The four changes that can be tried, as sliders. */
export function WhatIfSliders({ whatIf, asItIs, litAreaM2, onChange, onReset }: { whatIf: WhatIf; asItIs: WhatIf; litAreaM2: number; onChange: (next: Partial<WhatIf>) => void; onReset: () => void }) {
  const styles = useStyles();
  const ids = useId("what-if-");
  const { slider, value } = words;
  const knobs: Knob[] = [
    { key: "foodPercent", label: slider.food, least: -50, most: 50, step: 5, inWords: value.food },
    { key: "areaTimes", label: slider.area, least: 0.5, most: 3, step: 0.1, inWords: (times) => value.area(times, times * litAreaM2) },
    { key: "hours", label: slider.hours, least: 0, most: 24, step: 0.5, inWords: value.hours },
    { key: "changePercent", label: slider.change, least: 0, most: 50, step: 1, inWords: value.change },
  ];
  return (
    <>
      {knobs.map(({ key, label, least, most, step, inWords }) => (
        <div key={key} className={styles.knob}>
          <div className={styles.line}>
            <label htmlFor={`${ids}-${key}`} className={styles.label}>
              {label}
            </label>
            <span className={styles.value}>{inWords(whatIf[key])}</span>
          </div>
          <Slider
            id={`${ids}-${key}`}
            className={styles.slider}
            // Counted in steps: given as such, the rail would be a row of marks, and tenths would leave crumbs behind the comma.
            min={Math.round(least / step)}
            max={Math.round(most / step)}
            value={Math.round(whatIf[key] / step)}
            aria-valuetext={inWords(whatIf[key])}
            onChange={(_event, data) => onChange({ [key]: Number((data.value * step).toFixed(2)) })}
          />
        </div>
      ))}
      <Button size="small" className={styles.reset} disabledFocusable={sameAs(whatIf, asItIs)} onClick={onReset}>
        {words.reset}
      </Button>
    </>
  );
}

const sameAs = (one: WhatIf, other: WhatIf): boolean => (Object.keys(one) as (keyof WhatIf)[]).every((key) => one[key] === other[key]);
