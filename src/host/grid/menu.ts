import {
  AddRangeProtectionFromSheetBarCommand,
  AddRangeProtectionFromToolbarCommand,
  ChangeSheetProtectionFromSheetBarCommand,
  DeleteWorksheetProtectionFormSheetBarCommand,
  InsertFunctionOperation,
  ViewSheetPermissionFromSheetBarCommand,
} from "@univerjs/preset-sheets-core";

/** Protection asks who the users are, and there is nobody to ask on one machine. */
const PROTECTION = [
  AddRangeProtectionFromToolbarCommand.id,
  AddRangeProtectionFromSheetBarCommand.id,
  ChangeSheetProtectionFromSheetBarCommand.id,
  DeleteWorksheetProtectionFormSheetBarCommand.id,
  ViewSheetPermissionFromSheetBarCommand.id,
  "sheet.contextMenu.permission",
];

/** Ten menus of native functions by kind; the one of common functions stays, and leads to the list of all, ours included. */
const FUNCTION_MENUS = ["financial", "logical", "text", "date", "lookup", "math", "statistical", "engineering", "information", "database"].map(
  (kind) => `${InsertFunctionOperation.id}.${kind}`,
);

/** Entries of the grid's tool bar and menus that lead nowhere on this page, or only crowd it. */
export function hiddenMenuItems(): Record<string, { hidden: true }> {
  return Object.fromEntries([...PROTECTION, ...FUNCTION_MENUS].map((id) => [id, { hidden: true }]));
}
