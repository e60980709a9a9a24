import { makeStyles, tokens, useId } from "@fluentui/react-components";
import type { Nutrient } from "../../science/nutrient-forms";
import { budgetView } from "../../words/budget-view";
import { type AheadPoint, DAYS_AHEAD } from "./ahead";

const words = budgetView.ahead;
const BOX = { left: 40, right: 292, top: 24, bottom: 94, width: 300, height: 114 };

const useStyles = makeStyles({
  picture: { display: "block", width: "100%", height: "auto", marginTop: tokens.spacingVerticalS, color: tokens.colorNeutralForeground1, fontFamily: tokens.fontFamilyBase },
  heading: { fill: "currentColor", fontSize: "13px", fontWeight: tokens.fontWeightSemibold },
  axis: { fill: "currentColor", fontSize: "11px" },
  grid: { stroke: tokens.colorNeutralStroke1, strokeWidth: "1px" },
  band: { fill: "currentColor", opacity: 0.18 },
  edge: { stroke: "currentColor", strokeWidth: "1px", strokeDasharray: "3 2", fill: "none" },
  middle: { stroke: "currentColor", strokeWidth: "2px", fill: "none" },
  course: { color: tokens.colorBrandForeground1, "@media (forced-colors: active)": { color: "CanvasText" } },
});

/** One nutrient ahead: the range of the draws as a band with dashed edges, their middle as a line. */
export function AheadPicture({ nutrient, points, form }: { nutrient: Nutrient; points: readonly AheadPoint[]; form: string }) {
  const styles = useStyles();
  const ids = useId(`ahead-${nutrient}-`);
  const top = niceTop(Math.max(...points.map(({ reading }) => reading[nutrient].high), 1e-6));
  const x = (day: number): number => BOX.left + (day / DAYS_AHEAD) * (BOX.right - BOX.left);
  const y = (value: number): number => BOX.bottom - (value / top) * (BOX.bottom - BOX.top);
  const course = (of: "low" | "middle" | "high"): string[] => points.map(({ day, reading }) => `${x(day).toFixed(1)} ${y(reading[nutrient][of]).toFixed(1)}`);
  const spread = (day: number): string => {
    const at = points.find((point) => point.day === day)?.reading[nutrient];
    return at ? words.spread(at.low, at.high) : "";
  };
  return (
    <svg viewBox={`0 0 ${BOX.width} ${BOX.height}`} className={styles.picture} role="img" aria-labelledby={`${ids}-title`} aria-describedby={`${ids}-desc`}>
      <title id={`${ids}-title`}>{words.pictureTitle(form)}</title>
      <desc id={`${ids}-desc`}>{words.pictureDescription(form, spread(0), spread(DAYS_AHEAD / 2), spread(DAYS_AHEAD))}</desc>
      <g aria-hidden="true">
        <text x="2" y="13" className={styles.heading}>
          {words.pictureTitle(form)}
        </text>
        {[0, top / 2, top].map((value) => (
          <g key={value}>
            <path d={`M${BOX.left} ${y(value)}H${BOX.right}`} className={styles.grid} />
            <text x={BOX.left - 5} y={y(value) + 4} textAnchor="end" className={styles.axis}>
              {budgetView.figure(value)}
            </text>
          </g>
        ))}
        {words.weeks.map((week, place) => (
          <text key={week} x={x((place * DAYS_AHEAD) / 2)} y={BOX.bottom + 15} textAnchor={place === 0 ? "start" : place === 1 ? "middle" : "end"} className={styles.axis}>
            {week}
          </text>
        ))}
        <g className={styles.course}>
          <path d={`M${course("low").join("L")}L${course("high").reverse().join("L")}Z`} className={styles.band} />
          <path d={`M${course("low").join("L")}`} className={styles.edge} />
          <path d={`M${course("high").join("L")}`} className={styles.edge} />
          <path d={`M${course("middle").join("L")}`} className={styles.middle} />
        </g>
      </g>
    </svg>
  );
}

/** The next of 1, 2, 5 and their tens, so that the scale does not jump with each small change. */
function niceTop(most: number): number {
  const ten = 10 ** Math.floor(Math.log10(most));
  return ([1, 2, 5].find((step) => step * ten >= most) ?? 10) * ten;
}
