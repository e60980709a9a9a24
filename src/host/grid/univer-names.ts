import { generateRandomId } from "@univerjs/core";
import { IDefinedNamesService } from "@univerjs/engine-formula";
import { InsertDefinedNameCommand, RemoveDefinedNameCommand, SCOPE_WORKBOOK_VALUE_DEFINED_NAME } from "@univerjs/sheets";
import type { GridName, GridNames } from "../grid-port";
import type { OpenWorkbook } from "./open-workbook";

/** The names of the open workbook in a visible Univer grid. */
export class UniverNames implements GridNames {
  constructor(private readonly open: OpenWorkbook) {}

  list(): GridName[] {
    return this.known().map(({ id, name, formulaOrRefString, comment, localSheetId }) => ({
      id,
      name,
      formula: formulaOrRefString.replace(/^=/, ""),
      comment: comment ?? "",
      sheetId: localSheetId === undefined || localSheetId === SCOPE_WORKBOOK_VALUE_DEFINED_NAME ? null : localSheetId,
    }));
  }

  add({ name, formula, comment, sheetId }: Omit<GridName, "id">): string {
    const id = generateRandomId(10);
    this.open.command(InsertDefinedNameCommand.id, { id, name, formulaOrRefString: formula, comment, localSheetId: sheetId ?? SCOPE_WORKBOOK_VALUE_DEFINED_NAME });
    return id;
  }

  remove(id: string): void {
    const name = this.known().find((one) => one.id === id);
    if (name) this.open.command(RemoveDefinedNameCommand.id, name);
  }

  private known() {
    return Object.values(this.open.injector.get(IDefinedNamesService).getDefinedNameMap(this.open.unitId) ?? {});
  }
}
