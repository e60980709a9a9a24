import { makeStyles, mergeClasses, tokens, typographyStyles } from "@fluentui/react-components";
import { memo, useDeferredValue, useMemo, useReducer } from "react";
import { Problem } from "../../science/problem";
import { planScreen, type ScreenPlan, type ScreenWish } from "../../science/sizing-plan";
import { size as words } from "../../words/size";
import { useScreenStyles } from "../styles";
import { ANSWER_BOX_HEIGHT, AnswerBox } from "./answer-box";
import { SizeFormView } from "./form";
import { Picture } from "./picture";
import { planTexts } from "./plan-texts";
import { PutButton } from "./put-button";
import { problemCount, readForm } from "./read-form";
import { EMPTY_FORM, type SizeForm, sizeReducer } from "./size-form";
import type { Units } from "./units";

const useStyles = makeStyles({
  screen: { "& :is(button, input, select)": { scrollMarginTop: ANSWER_BOX_HEIGHT } },
  figures: { margin: `${tokens.spacingVerticalXS} 0 0`, display: "grid", gridTemplateColumns: "max-content minmax(0, 1fr)", columnGap: tokens.spacingHorizontalL, rowGap: tokens.spacingVerticalSNudge },
  name: { ...typographyStyles.body1, color: tokens.colorNeutralForeground2, margin: 0 },
  figure: { ...typographyStyles.body1Strong, margin: 0, fontVariantNumeric: "tabular-nums" },
  range: { ...typographyStyles.caption1, display: "block", color: tokens.colorNeutralForeground2 },
  note: { marginTop: tokens.spacingVerticalS },
  list: { margin: `${tokens.spacingVerticalXS} 0 0`, paddingLeft: tokens.spacingHorizontalL, listStyleType: "disc" },
  item: { ...typographyStyles.body1, marginTop: tokens.spacingVerticalXS },
});

/**
 * How large a screen has to be. The area stands first and stays in view while the form below it is filled in, so that a person sees
 * at each figure what it does to the answer; the reasons, the picture and the hardware, which are read once, come after the form.
 * @param inFront a screen behind another tab plans nothing
 */
export function Size({ inFront, initial = EMPTY_FORM }: { inFront: boolean; initial?: SizeForm }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const [form, dispatch] = useReducer(sizeReducer, initial);
  // Reading takes no time and follows each key, so that a wrong entry takes the answer away at once; planning may come a moment later.
  const read = useMemo(() => readForm(form), [form]);
  const later = useDeferredValue(form);
  const answer = useMemo(() => (inFront ? answerTo(later) : null), [later, inFront]);
  const shown = read.wish && answer && "plan" in answer ? answer : null;
  const refused = read.wish && answer && "reason" in answer ? answer.reason : null;
  return (
    <section className={mergeClasses(shared.screen, styles.screen)}>
      <h2 className={shared.heading}>{words.title}</h2>
      <p className={shared.text}>{words.intro}</p>
      {shown ? (
        <AnswerBox {...planTexts(shown.wish, shown.plan, later.units)} wrong={false} busy={later !== form} />
      ) : (
        <AnswerBox headline={words.answer.none} likely={refused ?? (read.wish ? "" : words.answer.noneWhy(problemCount(read)))} wrong={!read.wish || refused !== null} busy={later !== form} />
      )}
      <SizeFormView form={form} read={read} dispatch={dispatch} />
      {shown && <Explained wish={shown.wish} plan={shown.plan} units={later.units} />}
      <Cautions />
    </section>
  );
}

interface Planned {
  readonly wish: ScreenWish;
  readonly plan: ScreenPlan;
}

function answerTo(form: SizeForm): Planned | { readonly reason: string } | null {
  const { wish } = readForm(form);
  if (!wish) return null;
  try {
    return { wish, plan: planScreen(wish) };
  } catch (error) {
    return { reason: error instanceof Problem ? error.message : words.problem.unknown };
  }
}

/** Drawn again for a new plan only, not for each key. */
const Explained = memo(function Explained({ wish, plan, units }: Planned & { units: Units }) {
  const styles = useStyles();
  const shared = useScreenStyles();
  const texts = planTexts(wish, plan, units);
  return (
    <>
      <h3 className={shared.subheading}>{words.why.title}</h3>
      <Lines of={texts.why} />
      {plan.screen && (
        <>
          <h3 className={shared.subheading}>{words.habit.title}</h3>
          <Lines of={texts.habit} />
          <Picture plan={plan} units={units} />
          <h3 className={shared.subheading}>{words.figures.title}</h3>
          <dl className={styles.figures}>
            {texts.figures.map(({ name, text, range }) => (
              <div key={name} style={{ display: "contents" }}>
                <dt className={styles.name}>{name}</dt>
                <dd className={styles.figure}>
                  {text} <span className={styles.range}>{range}</span>
                </dd>
              </div>
            ))}
          </dl>
          <p className={mergeClasses(shared.text, shared.quiet, styles.note)}>{words.figures.note}</p>
          <PutButton wish={wish} plan={plan} units={units} />
        </>
      )}
    </>
  );
});

function Lines({ of }: { of: readonly string[] }) {
  const shared = useScreenStyles();
  return of.map((line) => (
    <p key={line} className={shared.text}>
      {keepTogether(line)}
    </p>
  ));
}

/** A figure and its per cent sign do not part at the end of a line. */
const keepTogether = (line: string): string => line.replace(/(\d) %/g, "$1\u00a0%");

function Cautions() {
  const styles = useStyles();
  const shared = useScreenStyles();
  return (
    <>
      <h3 className={shared.subheading}>{words.cautionsTitle}</h3>
      <ul className={styles.list}>
        {words.cautions.map(({ title, text }) => (
          <li key={title} className={styles.item}>
            <strong>{title}</strong> {text}
          </li>
        ))}
      </ul>
    </>
  );
}
