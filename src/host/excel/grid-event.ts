import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";

type Handler<Args> = (args: Args) => Promise<unknown>;

/** Listens to the grid and tells each time with the arguments that the grid knows. Returns the function that ends it. */
export type Listen<Args> = (tell: (args: Partial<Args>) => void) => () => void;

/**
 * An event of the workbook, fed by the grid. As in Excel, adding and removing a handler is a request like any other and takes
 * effect at sync. What the grid does not know of an event's arguments throws when it is read.
 */
class GridEvent<Args extends object> implements Pick<OfficeExtension.EventHandlers<Args>, "add" | "remove"> {
  private readonly ends = new Map<Handler<Args>, () => void>();

  constructor(private readonly local: LocalContext, private readonly listen: Listen<Args>) {}

  add(handler: Handler<Args>): OfficeExtension.EventHandlerResult<Args> {
    this.local.queue(() => {
      const end = this.listen((args) => void handler(onlyWhatStands(args, "EventArgs") as Args));
      this.ends.set(handler, end);
    });
    const result: OfficeExtension.EventHandlerResult<Args> = { context: this.local.asExcel, remove: () => this.remove(handler) };
    return result;
  }

  remove(handler: Handler<Args>): void {
    this.local.queue(() => {
      this.ends.get(handler)?.();
      this.ends.delete(handler);
    });
  }
}

export function gridEvent<Args extends object>(local: LocalContext, listen: Listen<Args>): OfficeExtension.EventHandlers<Args> {
  const offered: Partial<OfficeExtension.EventHandlers<Args>> = new GridEvent<Args>(local, listen);
  return offered as OfficeExtension.EventHandlers<Args>;
}
