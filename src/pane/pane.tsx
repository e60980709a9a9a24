import { FluentProvider, makeStyles, mergeClasses, tokens, useId } from "@fluentui/react-components";
import { lazy, type ReactNode, Suspense, useRef, useState, useSyncExternalStore } from "react";
import { pane as words } from "../words/pane";
import { KeepsFaults } from "./broken";
import { Budget } from "./budget/budget";
import type { ProblemList } from "./problems/problem-list";
import { Problems } from "./problems/problems";
import { panelId, type Screen, SCREENS, ScreenTabs, tabId } from "./screen-tabs";
import { Size } from "./size/size";
import { Start } from "./start/start";
import { useBudgetFormulas } from "./start/use-budget-formulas";
import { useScreenStyles } from "./styles";
import { usePaneTheme } from "./theme";

const useStyles = makeStyles({
  pane: { display: "flex", flexDirection: "column", height: "100%", minWidth: 0, boxSizing: "border-box" },
  panel: {
    // Holds what is there for screen readers only within what scrolls; else it would lengthen the page.
    position: "relative",
    flexGrow: 1,
    minHeight: 0,
    overflowY: "auto",
    ":focus-visible": { outline: `${tokens.strokeWidthThick} solid ${tokens.colorStrokeFocus2}`, outlineOffset: "-2px" },
  },
  away: { display: "none" },
});

/** The help of every function is as long as all else, and is loaded when it is first wanted. */
const Functions = lazy(() => import(/* webpackChunkName: "help" */ "./functions/functions"));

/** The whole pane: its screens behind tabs. A screen keeps what was typed in it while another is in front. */
export function Pane({ problemList }: { problemList: ProblemList }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const { theme, colorScheme } = usePaneTheme();
  const ids = useId("pane-");
  const [screen, setScreen] = useState<Screen>("start");
  const wanted = useRef(new Set<Screen>());
  wanted.current.add(screen);
  const problems = useSyncExternalStore(problemList.subscribe, problemList.shown, problemList.shown);
  const formulas = useBudgetFormulas(screen === "start");
  const content: Record<Screen, ReactNode> = {
    start: <Start formulas={formulas} onSize={() => setScreen("size")} onBudget={() => setScreen("budget")} />,
    budget: <Budget inFront={screen === "budget"} />,
    size: <Size inFront={screen === "size"} />,
    problems: <Problems shown={problems} />,
    functions: wanted.current.has("functions") && (
      <Suspense
        fallback={
          <p className={shared.text} role="status">
            {words.loading}
          </p>
        }
      >
        <Functions />
      </Suspense>
    ),
  };

  return (
    <FluentProvider theme={theme} className={styles.pane} style={{ colorScheme }}>
      <h1 className={shared.spoken}>{words.title}</h1>
      <ScreenTabs screen={screen} onScreen={setScreen} problemCount={problems.list.length} ids={ids} />
      <div className={shared.spoken} role="status" aria-live="polite">
        {words.problems.count(problems.list.length)}
      </div>
      {SCREENS.map((name) => (
        <div
          key={name}
          role="tabpanel"
          id={panelId(ids, name)}
          aria-labelledby={tabId(ids, name)}
          tabIndex={0}
          className={mergeClasses(styles.panel, name !== screen && styles.away)}
        >
          <KeepsFaults>{content[name]}</KeepsFaults>
        </div>
      ))}
    </FluentProvider>
  );
}
