import { useEffect, useMemo, useState } from "react";
import { restWords } from "../../functions/forecast-arguments";
import { isCellError } from "../../functions/cell-error";
import { DRAWS } from "../../functions/forecast-arguments";
import { Problem } from "../../science/problem";
import { budgetView } from "../../words/budget-view";
import { useScreenStyles } from "../styles";
import { NUTRIENTS, type AccountView } from "./account";
import { type Ahead, aheadBasis, type AheadBasis, type Basis, DAYS_AHEAD, lookAhead, type WhatIf } from "./ahead";
import { AheadPicture } from "./ahead-picture";
import { useBudgetStyles } from "./styles";
import { WhatIfSliders } from "./what-if";

const words = budgetView.ahead;
const FORMS = { N: "NO3", P: "PO4" } as const;
/** A slider that moves asks for a new forecast with every step; the full number of draws follows when it rests. */
const MOVING_DRAWS = 60;
const REST_MS = 300;

/** NO3 and PO4 ahead, and what a change would do. */
export function LookAhead({ account }: { account: AccountView }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  const basis = useMemo(() => basisOf(account), [account]);
  return (
    <section className={styles.section}>
      <h3 className={styles.sectionTitle}>{words.title}</h3>
      {basis.kind === "not" ? <p className={shared.text}>{basis.sentence}</p> : <WhatIfOf basis={basis.basis} />}
    </section>
  );
}

function basisOf(account: AccountView): Basis {
  try {
    return aheadBasis(account);
  } catch (error) {
    if (error instanceof Problem || isCellError(error)) return { kind: "not", sentence: words.cannot(error.message) };
    throw error;
  }
}

function WhatIfOf({ basis }: { basis: AheadBasis }) {
  const shared = useScreenStyles();
  const styles = useBudgetStyles();
  // What was moved stays moved when the log changes; the rest follows the log.
  const [moved, setMoved] = useState<Partial<WhatIf>>({});
  const [draws, setDraws] = useState(DRAWS);
  const whatIf = useMemo(() => ({ ...basis.asItIs, ...moved }), [basis, moved]);
  const ahead = useMemo(() => lookAhead(basis, whatIf, draws), [basis, whatIf, draws]);
  useEffect(() => {
    if (draws === DRAWS) return undefined;
    const timer = setTimeout(() => setDraws(DRAWS), REST_MS);
    return () => clearTimeout(timer);
  }, [draws, moved]);

  const move = (change: Partial<WhatIf>): void => {
    setMoved((before) => ({ ...before, ...change }));
    setDraws(MOVING_DRAWS);
  };
  return (
    <>
      <p className={shared.text}>{`${words.basis(basis.outlook.loadGPerDay.N, basis.outlook.loadGPerDay.P, basis.loadDays)} ${words.harvests(basis.harvestEvery)}`}</p>
      <div className={styles.card}>
        <Figures ahead={ahead} />
        {NUTRIENTS.map((nutrient) => (
          <AheadPicture key={nutrient} nutrient={nutrient} points={ahead.points} form={FORMS[nutrient]} />
        ))}
        <WhatIfSliders whatIf={whatIf} asItIs={basis.asItIs} litAreaM2={basis.outlook.litAreaM2} onChange={move} onReset={() => move(basis.asItIs)} />
      </div>
      <p className={shared.spoken} role="status">
        {draws === DRAWS ? words.spoken(spreadOn(ahead, "N", DAYS_AHEAD), spreadOn(ahead, "P", DAYS_AHEAD)) : ""}
      </p>
      <p className={styles.note}>{words.band}</p>
    </>
  );
}

function Figures({ ahead }: { ahead: Ahead }) {
  const styles = useBudgetStyles();
  const shared = useScreenStyles();
  return (
    <table className={styles.table}>
      <caption className={shared.spoken}>{words.title}</caption>
      <thead>
        <tr>
          {words.columns.map((column) => (
            <th key={column} scope="col" className={styles.headCell}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {NUTRIENTS.map((nutrient) => (
          <tr key={nutrient}>
            <th scope="row" className={styles.cell}>
              {FORMS[nutrient]}
            </th>
            {[0, DAYS_AHEAD / 2, DAYS_AHEAD].map((day) => (
              <td key={day} className={styles.cell}>
                {spreadOn(ahead, nutrient, day)}
              </td>
            ))}
            <td className={styles.cell}>{restWords(ahead.settles[nutrient]) ?? words.settlesAt(ahead.settles[nutrient])}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function spreadOn({ points }: Ahead, nutrient: "N" | "P", day: number): string {
  const at = points.find((point) => point.day === day)?.reading[nutrient];
  return at ? words.spread(at.low, at.high) : "";
}
