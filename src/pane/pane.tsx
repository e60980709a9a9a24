import { CounterBadge, FluentProvider, makeStyles, mergeClasses, type SelectTabData, Tab, TabList, tokens, useId } from "@fluentui/react-components";
import { type ReactNode, useState, useSyncExternalStore } from "react";
import { pane as words } from "../words/pane";
import { KeepsFaults } from "./broken";
import { Functions } from "./functions/functions";
import type { ProblemList } from "./problems/problem-list";
import { Problems } from "./problems/problems";
import { Start } from "./start/start";
import { useOpenLog } from "./start/use-open-log";
import { useScreenStyles } from "./styles";
import { useTheme } from "./theme";

type Screen = "start" | "problems" | "functions";

const useStyles = makeStyles({
  pane: { display: "flex", flexDirection: "column", height: "100%", minWidth: 0, boxSizing: "border-box" },
  tabs: { flexShrink: 0, borderBottom: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}` },
  tab: { display: "inline-flex", alignItems: "center", columnGap: tokens.spacingHorizontalXS },
  panel: { flexGrow: 1, minHeight: 0, overflowY: "auto", ":focus-visible": { outline: `${tokens.strokeWidthThick} solid ${tokens.colorStrokeFocus2}`, outlineOffset: "-2px" } },
  away: { display: "none" },
});

/** The whole pane: three screens behind tabs. A screen keeps what was typed in it while another is in front. */
export function Pane({ problemList }: { problemList: ProblemList }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const ids = useId("pane-");
  const [screen, setScreen] = useState<Screen>("start");
  const problems = useSyncExternalStore(problemList.subscribe, problemList.shown, problemList.shown);
  const count = problems.list.length;
  const openLog = useOpenLog(screen === "start");

  const panel = (name: Screen, content: ReactNode) => (
    <div
      role="tabpanel"
      id={`${ids}-${name}`}
      aria-labelledby={`${ids}-${name}-tab`}
      tabIndex={0}
      className={mergeClasses(styles.panel, name !== screen && styles.away)}
    >
      <KeepsFaults>{content}</KeepsFaults>
    </div>
  );
  const tab = (name: Screen, label: ReactNode) => (
    <Tab value={name} id={`${ids}-${name}-tab`} aria-controls={`${ids}-${name}`}>
      {label}
    </Tab>
  );

  return (
    <FluentProvider theme={useTheme()} className={styles.pane}>
      <h1 className={shared.spoken}>{words.title}</h1>
      <TabList
        className={styles.tabs}
        aria-label={words.screens}
        selectedValue={screen}
        onTabSelect={(_event, { value }: SelectTabData) => setScreen(value as Screen)}
      >
        {tab("start", words.startTab)}
        {tab(
          "problems",
          <span className={styles.tab}>
            {words.problemsTab}
            {count > 0 && <CounterBadge size="small" color="danger" count={count} overflowCount={99} />}
          </span>,
        )}
        {tab("functions", words.functionsTab)}
      </TabList>
      <div className={shared.spoken} role="status" aria-live="polite">
        {words.problems.count(count)}
      </div>
      {panel("start", <Start openLog={openLog} />)}
      {panel("problems", <Problems shown={problems} />)}
      {panel("functions", <Functions />)}
    </FluentProvider>
  );
}
