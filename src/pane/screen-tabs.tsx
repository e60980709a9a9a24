import { CounterBadge, makeStyles, type SelectTabData, Tab, TabList, tokens } from "@fluentui/react-components";
import type { KeyboardEvent } from "react";
import { pane as words } from "../words/pane";

export const SCREENS = ["start", "budget", "size", "problems", "functions"] as const;
export type Screen = (typeof SCREENS)[number];

interface ScreenTabsProps {
  screen: Screen;
  onScreen: (screen: Screen) => void;
  problemCount: number;
  /** Beginning of the ids of tabs and panels. */
  ids: string;
}

export const tabId = (ids: string, screen: Screen): string => `${ids}-${screen}-tab`;
export const panelId = (ids: string, screen: Screen): string => `${ids}-${screen}`;

const useStyles = makeStyles({
  tabs: { flexShrink: 0, flexWrap: "wrap", borderBottom: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}` },
  label: { display: "inline-flex", alignItems: "center", columnGap: tokens.spacingHorizontalXS },
});

/** The place that each key goes to, of `count` places in a ring. */
const GOES_TO: Readonly<Record<string, (place: number, count: number) => number>> = {
  ArrowRight: (place, count) => (place + 1) % count,
  ArrowLeft: (place, count) => (place + count - 1) % count,
  Home: () => 0,
  End: (_place, count) => count - 1,
};

/**
 * The tabs of the pane, by the WAI-ARIA tabs pattern: one stop of the Tab key, arrows, Home and End move and show. The keys are
 * handled here and the library's own key helper is switched off (`data-tabster`), because it puts hidden elements that take the
 * focus into the list.
 */
export function ScreenTabs({ screen, onScreen, problemCount, ids }: ScreenTabsProps) {
  const styles = useStyles();
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const goesTo = GOES_TO[event.key];
    const next = goesTo && SCREENS[goesTo(SCREENS.indexOf(screen), SCREENS.length)];
    if (!next) return;
    event.preventDefault();
    onScreen(next);
    document.getElementById(tabId(ids, next))?.focus();
  };
  return (
    <TabList
      className={styles.tabs}
      aria-label={words.screens}
      size="small"
      data-tabster={undefined}
      selectedValue={screen}
      onTabSelect={(_event, { value }: SelectTabData) => onScreen(value as Screen)}
      onKeyDown={onKeyDown}
    >
      {SCREENS.map((name) => (
        <Tab
          key={name}
          value={name}
          id={tabId(ids, name)}
          aria-controls={panelId(ids, name)}
          tabIndex={name === screen ? 0 : -1}
          data-tabster={undefined}
        >
          <span className={styles.label}>
            {words.tabs[name]}
            {name === "problems" && problemCount > 0 && <CounterBadge size="small" color="danger" count={problemCount} overflowCount={99} />}
          </span>
        </Tab>
      ))}
    </TabList>
  );
}
