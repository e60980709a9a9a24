import { makeStyles, tokens, typographyStyles } from "@fluentui/react-components";
import { type ReactNode, useId } from "react";
import type { ScreenPlan } from "../../science/sizing-plan";
import { size } from "../../words/size";
import { PICTURE, pictureShape } from "./picture-shape";
import { areaUnit, fromMetric, plain, type Units } from "./units";

const words = size.picture;
/** Where the system chooses the colours, every line takes that of the text. */
const FORCED = "@media (forced-colors: active)";

const useStyles = makeStyles({
  figure: { margin: `${tokens.spacingVerticalS} 0 0`, color: tokens.colorNeutralForeground2 },
  svg: { display: "block", width: "100%", height: "auto", overflow: "visible" },
  text: { fill: "currentColor", fontSize: "11.5px", fontFamily: tokens.fontFamilyBase, fontVariantNumeric: "tabular-nums" },
  yours: { fontWeight: tokens.fontWeightSemibold, fill: tokens.colorNeutralForeground1, [FORCED]: { fill: "CanvasText" } },
  grid: { stroke: tokens.colorNeutralStroke3, strokeWidth: "1", [FORCED]: { stroke: "GrayText" } },
  axis: { stroke: tokens.colorNeutralStroke1, strokeWidth: "1", [FORCED]: { stroke: "CanvasText" } },
  brand: { stroke: tokens.colorBrandStroke1, fill: "none", [FORCED]: { stroke: "CanvasText" } },
  ink: { stroke: tokens.colorNeutralForeground1, fill: "none", [FORCED]: { stroke: "CanvasText" } },
  dot: { fill: tokens.colorBrandStroke1, stroke: tokens.colorNeutralBackground1, strokeWidth: "2", [FORCED]: { fill: "CanvasText", stroke: "Canvas" } },
  legend: { ...typographyStyles.caption1, display: "flex", flexWrap: "wrap", columnGap: tokens.spacingHorizontalL, rowGap: tokens.spacingVerticalXXS, listStyleType: "none", margin: `${tokens.spacingVerticalXS} 0 0`, padding: 0 },
  key: { display: "inline-flex", alignItems: "center", columnGap: tokens.spacingHorizontalXS },
});

/** Area against food: the hatched range, the likely line through it, the dashed line of common practice, and the food as planned. */
export function Picture({ plan, units }: { plan: ScreenPlan; units: Units }) {
  const styles = useStyles();
  const id = useId();
  const shape = pictureShape(plan, units);
  if (!shape) return null;
  const { left, right, bottom } = PICTURE;
  const hatch = `${id}-hatch`;
  return (
    <figure className={styles.figure}>
      <svg className={styles.svg} viewBox={`0 0 ${PICTURE.width} ${PICTURE.height}`} role="img" aria-labelledby={`${id}-title ${id}-desc`}>
        <title id={`${id}-title`}>{words.title}</title>
        <desc id={`${id}-desc`}>{description(plan, units)}</desc>
        <Hatch id={hatch} className={styles.brand} />
        {shape.y.map(({ at, label }) => (
          <g key={label}>
            <line className={styles.grid} x1={left} x2={right} y1={at} y2={at} />
            <text className={styles.text} x={left - 6} y={at + 4} textAnchor="end">
              {label}
            </text>
          </g>
        ))}
        <line className={styles.axis} x1={left} x2={right} y1={bottom} y2={bottom} />
        {shape.x.map(({ at, label }) => (
          <g key={label}>
            <line className={styles.axis} x1={at} x2={at} y1={bottom} y2={bottom + 4} />
            <text className={styles.text} x={at} y={bottom + 16} textAnchor="middle">
              {label}
            </text>
          </g>
        ))}
        <text className={styles.text} x={0} y={12}>
          {words.area(shape.areaUnit)}
        </text>
        <text className={styles.text} x={right} y={bottom + 33} textAnchor="end">
          {words.food(size.form.unit.mass[units])}
        </text>
        <polygon points={shape.range} className={styles.brand} style={{ fill: `url(#${hatch})` }} strokeWidth="1" />
        <polyline points={shape.likely} className={styles.brand} strokeWidth="2.5" />
        <polygon points={shape.habit} className={styles.ink} strokeWidth="0.5" />
        <polyline points={shape.habitLine} className={styles.ink} strokeWidth="2" strokeDasharray="5 4" />
        <Yours shape={shape.yours} styles={styles} />
      </svg>
      <ul className={styles.legend} aria-hidden="true">
        <Key text={words.likely}>
          <line className={styles.brand} x1="0" x2="24" y1="6" y2="6" strokeWidth="2.5" />
        </Key>
        <Key text={words.range}>
          <rect className={styles.brand} style={{ fill: `url(#${hatch})` }} x="0.5" y="0.5" width="23" height="11" strokeWidth="1" />
        </Key>
        <Key text={words.habit}>
          <line className={styles.ink} x1="0" x2="24" y1="6" y2="6" strokeWidth="2" strokeDasharray="5 4" />
        </Key>
      </ul>
    </figure>
  );
}

/** The food as planned: a bar from low to high with the likely area as a dot on it. */
function Yours({ shape: { x, low, middle, high }, styles }: { shape: { x: number; low: number; middle: number; high: number }; styles: ReturnType<typeof useStyles> }) {
  return (
    <g>
      <line className={styles.ink} x1={x} x2={x} y1={PICTURE.top} y2={PICTURE.bottom} strokeWidth="1" strokeDasharray="1 3" />
      <path className={styles.ink} d={`M${x - 5} ${low} H${x + 5} M${x} ${low} V${high} M${x - 5} ${high} H${x + 5}`} strokeWidth="1.5" />
      <circle className={styles.dot} cx={x} cy={middle} r="5" />
      <text className={`${styles.text} ${styles.yours}`} x={x - 5} y={PICTURE.top + 10} textAnchor="end">
        {words.yours}
      </text>
    </g>
  );
}

function Hatch({ id, className }: { id: string; className: string }) {
  return (
    <defs>
      <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line className={className} x1="0" x2="0" y1="0" y2="6" strokeWidth="1.5" opacity="0.55" />
      </pattern>
    </defs>
  );
}

function Key({ text, children }: { text: string; children: ReactNode }) {
  const styles = useStyles();
  return (
    <li className={styles.key}>
      <svg width="24" height="12">{children}</svg>
      {text}
    </li>
  );
}

function description({ areaAtFood, foodGPerDay, habit }: ScreenPlan, units: Units): string {
  const now = areaAtFood.find((point) => point.foodGPerDay === foodGPerDay)?.area ?? { low: 0, value: 0, high: 0 };
  const { name, perM2 } = areaUnit(now.high, units);
  const area = (m2: number): string => `${plain(m2 * perM2, 2)} ${name}`;
  const food = `${plain(fromMetric(foodGPerDay, "mass", units), 2)} ${size.form.unit.mass[units]}`;
  return words.alt(food, area(now.low), area(now.high), area(now.value), area(habit.areaM2.value));
}
