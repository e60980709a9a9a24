import { invalidArgument } from "./excel-error";
import type { LocalContext } from "./request-context";

const LONGEST_NAME = 31;

/** Fails for a name that Excel would not give to a sheet. @param own the sheet that may have the name already */
export function refuseSheetName(local: LocalContext, name: string, own: string | null, member: string): void {
  if (name.trim() === "" || name.length > LONGEST_NAME) throw invalidArgument(member, `a sheet's name has 1 to ${LONGEST_NAME} characters.`);
  if (/[\\/?*[\]:]/.test(name) || name.startsWith("'") || name.endsWith("'")) throw invalidArgument(member, `"${name}" has signs in it that a sheet's name cannot have.`);
  const holder = local.sheetId(name);
  if (holder !== null && holder !== own) throw invalidArgument(member, `there is a sheet "${name}".`);
}
