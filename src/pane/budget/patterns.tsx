import { makeStyles, mergeClasses, tokens } from "@fluentui/react-components";
import type { ReactNode } from "react";
import type { FlowName } from "./flows";

/** Each part has a pattern of its own, which is enough without its colour; in forced colours all take the text's. */
const FORCED = { "@media (forced-colors: active)": { color: "CanvasText" } };
const useStyles = makeStyles({
  feed: { color: tokens.colorPaletteMarigoldForeground2, ...FORCED },
  otherIn: { color: tokens.colorPalettePurpleForeground2, ...FORCED },
  fromStore: { color: tokens.colorPaletteTealForeground2, ...FORCED },
  intoStore: { color: tokens.colorPaletteTealForeground2, ...FORCED },
  harvest: { color: tokens.colorPaletteGreenForeground1, ...FORCED },
  change: { color: tokens.colorPaletteBlueForeground2, ...FORCED },
  otherOut: { color: tokens.colorPalettePurpleForeground2, ...FORCED },
  unexplainedIn: { color: tokens.colorNeutralForeground1, ...FORCED },
  unexplainedOut: { color: tokens.colorNeutralForeground1, ...FORCED },
});

const line = (d: string, width: number): ReactNode => <path d={d} stroke="currentColor" strokeWidth={width} fill="none" />;

/** The tile of each pattern, 8 x 8. */
const TILES: Readonly<Record<FlowName, ReactNode>> = {
  feed: <circle cx="4" cy="4" r="2.4" fill="currentColor" />,
  otherIn: line("M4 1V7M1 4H7", 1.5),
  fromStore: line("M0 4Q2 1 4 4T8 4", 1.6),
  harvest: <rect width="8" height="8" fill="currentColor" />,
  change: line("M0 2H8M0 6H8", 1.8),
  otherOut: line("M4 1V7M1 4H7", 1.5),
  intoStore: line("M0 4Q2 1 4 4T8 4", 1.6),
  unexplainedIn: line("M-2 10L10 -2M-2 2L2 -2M6 10L10 6", 1.4),
  unexplainedOut: line("M-2 10L10 -2M-2 2L2 -2M6 10L10 6", 1.4),
};
const NAMES = Object.keys(TILES) as FlowName[];

export const patternId = (ids: string, name: FlowName): string => `${ids}-${name}`;

export function useFlowColours(): Readonly<Record<FlowName, string>> {
  return useStyles();
}

/** The patterns of one picture; its other parts refer to them by `patternId`. */
export function Patterns({ ids }: { ids: string }) {
  const colours = useFlowColours();
  return (
    <defs>
      {NAMES.map((name) => (
        <pattern key={name} id={patternId(ids, name)} className={colours[name]} width="8" height="8" patternUnits="userSpaceOnUse">
          {TILES[name]}
        </pattern>
      ))}
    </defs>
  );
}

/** The pattern beside its name in the table. */
export function Swatch({ ids, name, className }: { ids: string; name: FlowName; className?: string }) {
  const colours = useFlowColours();
  return (
    <svg width="18" height="14" viewBox="0 0 18 14" aria-hidden="true" focusable="false" className={mergeClasses(colours[name], className)}>
      <rect x="0.75" y="0.75" width="16.5" height="12.5" fill={`url(#${patternId(ids, name)})`} stroke="currentColor" strokeWidth="1.5" />
    </svg>
  );
}
