import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";

/** The arguments of both events, of which the grid knows the type and no more: it does not say what changed. */
interface EventArguments {
  readonly type: string;
}

/**
 * An event of the workbook, fed by the grid's one signal that cells changed. As in Excel, adding and removing a handler is a
 * request like any other and takes effect at sync.
 */
class GridEvent<Args extends EventArguments> implements Pick<OfficeExtension.EventHandlers<Args>, "add" | "remove"> {
  private readonly ends = new Map<(args: Args) => Promise<unknown>, () => void>();

  constructor(private readonly local: LocalContext, private readonly type: string) {}

  add(handler: (args: Args) => Promise<unknown>): OfficeExtension.EventHandlerResult<Args> {
    const args = onlyWhatStands<EventArguments>({ type: this.type }, "EventArgs") as Args;
    this.local.queue(() => {
      this.ends.set(handler, this.local.port.onChange(() => void handler(args)));
    });
    const result: OfficeExtension.EventHandlerResult<Args> = { context: this.local.asExcel, remove: () => this.remove(handler) };
    return result;
  }

  remove(handler: (args: Args) => Promise<unknown>): void {
    this.local.queue(() => {
      this.ends.get(handler)?.();
      this.ends.delete(handler);
    });
  }
}

export function gridEvent<Args extends EventArguments>(local: LocalContext, type: Args["type"]): OfficeExtension.EventHandlers<Args> {
  const offered: Partial<OfficeExtension.EventHandlers<Args>> = new GridEvent<Args>(local, type);
  return offered as OfficeExtension.EventHandlers<Args>;
}
