import { makeStyles, tokens, typographyStyles } from "@fluentui/react-components";

/** What the screens share: their ground, headings and running text. */
export const useScreenStyles = makeStyles({
  screen: { padding: `${tokens.spacingVerticalL} ${tokens.spacingHorizontalL} ${tokens.spacingVerticalXXL}` },
  heading: { ...typographyStyles.subtitle1, margin: 0 },
  subheading: { ...typographyStyles.subtitle2, margin: `${tokens.spacingVerticalXL} 0 ${tokens.spacingVerticalXS}` },
  text: { ...typographyStyles.body1, margin: `${tokens.spacingVerticalXS} 0 0`, overflowWrap: "anywhere" },
  quiet: { color: tokens.colorNeutralForeground2 },
  code: { fontFamily: tokens.fontFamilyMonospace, overflowWrap: "anywhere" },
  list: { listStyleType: "none", margin: 0, padding: 0 },
  /** Read by screen readers only. */
  spoken: { position: "absolute", width: "1px", height: "1px", overflow: "hidden", clipPath: "inset(50%)", whiteSpace: "nowrap" },
});
