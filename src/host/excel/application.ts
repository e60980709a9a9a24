import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";

/** The grid calculates by itself once a batch is through, so that there is nothing to hold back here. */
class LocalApplication implements Pick<Excel.Application, "context" | "suspendApiCalculationUntilNextSync" | "suspendScreenUpdatingUntilNextSync"> {
  constructor(private readonly local: LocalContext) {}

  get context(): Excel.RequestContext {
    return this.local.asExcel;
  }

  suspendApiCalculationUntilNextSync(): void {}

  suspendScreenUpdatingUntilNextSync(): void {}
}

export function applicationOf(local: LocalContext): Excel.Application {
  const offered: Partial<Excel.Application> = onlyWhatStands(new LocalApplication(local), "Application");
  return offered as Excel.Application;
}
