/** Sentences about the workbook itself: what could not be found or shown. */
export const workbook = {
  sheetGone: (sheet: string) => `The workbook has no sheet "${sheet}" now.`,
  cellNotShown: (address: string) => `${address} could not be shown. Finish the cell that is being edited, or unhide the sheet, and try again.`,
} as const;
