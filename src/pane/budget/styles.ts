import { makeStyles, tokens, typographyStyles } from "@fluentui/react-components";

/** What the parts of the screen Budget share. */
export const useBudgetStyles = makeStyles({
  section: { marginTop: tokens.spacingVerticalXXL },
  sectionTitle: { ...typographyStyles.subtitle2, margin: 0 },
  card: {
    marginTop: tokens.spacingVerticalS,
    padding: `${tokens.spacingVerticalM} ${tokens.spacingHorizontalM}`,
    backgroundColor: tokens.colorNeutralBackground1,
    border: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke1}`,
    borderRadius: tokens.borderRadiusMedium,
  },
  cardTitle: { ...typographyStyles.caption1Strong, color: tokens.colorNeutralForeground2, margin: 0 },
  lead: { ...typographyStyles.body2, margin: `${tokens.spacingVerticalXXS} 0 0`, overflowWrap: "anywhere" },
  note: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, margin: `${tokens.spacingVerticalXS} 0 0`, overflowWrap: "anywhere" },
  summary: { ...typographyStyles.caption1, color: tokens.colorNeutralForeground2, cursor: "pointer", marginTop: tokens.spacingVerticalXS, ":focus-visible": { outline: `${tokens.strokeWidthThick} solid ${tokens.colorStrokeFocus2}` } },
  field: { display: "block", marginTop: tokens.spacingVerticalM },
  label: { ...typographyStyles.caption1Strong, display: "block", marginBottom: tokens.spacingVerticalXXS },
  table: { width: "100%", borderCollapse: "collapse", marginTop: tokens.spacingVerticalS, ...typographyStyles.body1 },
  headCell: { ...typographyStyles.caption1Strong, color: tokens.colorNeutralForeground2, textAlign: "left", padding: `${tokens.spacingVerticalXXS} ${tokens.spacingHorizontalXS} ${tokens.spacingVerticalXXS} 0`, verticalAlign: "bottom" },
  cell: { padding: `${tokens.spacingVerticalXXS} ${tokens.spacingHorizontalXS} ${tokens.spacingVerticalXXS} 0`, verticalAlign: "top", textAlign: "left", fontWeight: tokens.fontWeightRegular, borderTop: `${tokens.strokeWidthThin} solid ${tokens.colorNeutralStroke2}` },
  number: { textAlign: "right", paddingRight: 0, paddingLeft: tokens.spacingHorizontalS, whiteSpace: "nowrap", fontVariantNumeric: "tabular-nums" },
});
