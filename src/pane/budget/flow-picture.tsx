import { makeStyles, tokens } from "@fluentui/react-components";
import { budgetView } from "../../words/budget-view";
import type { Nutrient } from "../../science/nutrient-forms";
import type { Flow, Flows } from "./flows";
import { Patterns, patternId, useFlowColours } from "./patterns";

const words = budgetView.where;

const WIDTH = 300;
const BAR = 34;
/** A part that is narrower has no room for its per cent, which stands in the table below. */
const LABELLED = 40;
/** The whisker may run beyond the bar; a range that is far wider than all that came in is cut, with an arrow in place of its end. */
const BEYOND = 1.5;

const useStyles = makeStyles({
  picture: { display: "block", width: "100%", height: "auto", marginTop: tokens.spacingVerticalS, color: tokens.colorNeutralForeground1, fontFamily: tokens.fontFamilyBase },
  heading: { fill: "currentColor", fontSize: "13px", fontWeight: tokens.fontWeightSemibold },
  plate: { fill: tokens.colorNeutralBackground1, "@media (forced-colors: active)": { fill: "Canvas" } },
  label: { fill: "currentColor", fontSize: "12px", fontWeight: tokens.fontWeightSemibold },
  whisker: { stroke: "currentColor", strokeWidth: "2px", fill: "none" },
  halo: { stroke: tokens.colorNeutralBackground1, strokeWidth: "5px", fill: "none", "@media (forced-colors: active)": { stroke: "Canvas" } },
});

/** One nutrient of one period: two bars of the same length, and the range of what is unexplained as a whisker over its bar. */
export function FlowPicture({ flows, nutrient, ids }: { flows: Flows; nutrient: Nutrient; ids: string }) {
  const styles = useStyles();
  const { cameIn, went, totalG, whisker } = flows;
  const most = Math.min(BEYOND * totalG, Math.max(totalG, whisker.to)) || 1;
  const x = (grams: number): number => (Math.min(Math.max(0, grams), most) / most) * (WIDTH - 4) + 2;
  const inWords = (flow: Flow): string => words.inWords(words.flow[flow.name], flow.grams, flow.share);
  const bars = [
    { name: "cameIn" as const, title: words.cameIn, flows: cameIn, top: 20 },
    { name: "went" as const, title: words.went, flows: went, top: 88 },
  ];
  return (
    <svg viewBox={`0 0 ${WIDTH} 136`} className={styles.picture} role="img" aria-labelledby={`${ids}-title`} aria-describedby={`${ids}-desc`}>
      <title id={`${ids}-title`}>{words.heading(nutrient)}</title>
      <desc id={`${ids}-desc`}>{`${words.describe(cameIn.map(inWords), went.map(inWords))} ${words.range(whisker.lowG, whisker.highG)}`}</desc>
      <Patterns ids={ids} />
      {bars.map(({ name, title, flows: parts, top }) => (
        <g key={name} aria-hidden="true">
          <text x="2" y={top - 6} className={styles.heading}>
            {words.total(title, totalG)}
          </text>
          {parts.map((flow) => (
            <Part key={flow.name} flow={flow} ids={ids} left={x(flow.from)} right={x(flow.from + flow.grams)} top={top} />
          ))}
          {whisker.on === name && (
            <>
              <path d={whiskerPath(x(whisker.from), x(whisker.to), top, whisker.from < 0, whisker.to > most)} className={styles.halo} />
              <path d={whiskerPath(x(whisker.from), x(whisker.to), top, whisker.from < 0, whisker.to > most)} className={styles.whisker} />
            </>
          )}
        </g>
      ))}
    </svg>
  );
}

function Part({ flow: { name, share }, ids, left, right, top }: { flow: Flow; ids: string; left: number; right: number; top: number }) {
  const styles = useStyles();
  const colours = useFlowColours();
  const label = budgetView.perCent(share);
  const room = 8 * label.length;
  return (
    <>
      <rect x={left} y={top} width={Math.max(0, right - left)} height={BAR} fill={`url(#${patternId(ids, name)})`} stroke="currentColor" strokeWidth="1.5" className={colours[name]} />
      {right - left > LABELLED && (
        <>
          <rect x={left + 5} y={top + 4} width={room + 4} height="17" rx="3" className={styles.plate} />
          <text x={left + 7 + room / 2} y={top + 17} textAnchor="middle" className={styles.label}>
            {label}
          </text>
        </>
      )}
    </>
  );
}

/** Low in the bar, so that it leaves the labels free. */
function whiskerPath(from: number, to: number, top: number, cutLow: boolean, cutHigh: boolean): string {
  const y = top + BAR - 7;
  const end = (place: number, cut: boolean, inward: number): string => (cut ? `M${place + 6 * inward} ${y - 5}L${place} ${y}L${place + 6 * inward} ${y + 5}` : `M${place} ${y - 5}V${y + 5}`);
  return `M${from} ${y}H${to}${end(from, cutLow, 1)}${end(to, cutHigh, -1)}`;
}
