import { ICommandService, IContextService, type IUndoRedoItem, IUndoRedoService, IUniverInstanceService, LocalUndoRedoService, type Univer } from "@univerjs/core";

/**
 * The grid's memory of what can be undone, which can take much as one step. The grid has a batching of its own, but takes the
 * parts back in the order in which they were done, so that a cell written twice would keep its first writing; here the last
 * goes first.
 */
export class StepwiseUndo extends LocalUndoRedoService {
  private steps: IUndoRedoItem[] | null = null;

  override pushUndoRedo(item: IUndoRedoItem): void {
    if (this.steps) this.steps.push(item);
    else super.pushUndoRedo(item);
  }

  /** What is done in `act` is one step, even when it ends by throwing. */
  asOneStep(act: () => void): void {
    const steps: IUndoRedoItem[] = [];
    this.steps = steps;
    try {
      act();
    } finally {
      this.steps = null;
      const [first] = steps;
      if (first) {
        super.pushUndoRedo({
          unitID: first.unitID,
          redoMutations: steps.flatMap(({ redoMutations }) => redoMutations),
          undoMutations: [...steps].reverse().flatMap(({ undoMutations }) => undoMutations),
        });
      }
    }
  }
}

type Override = NonNullable<NonNullable<ConstructorParameters<typeof Univer>[0]>["override"]>;

/** Puts it in the place of the grid's own. */
export const stepwiseUndo: Override = [
  [
    IUndoRedoService,
    {
      useFactory: (instances: IUniverInstanceService, commands: ICommandService, contexts: IContextService) => new StepwiseUndo(instances, commands, contexts),
      deps: [IUniverInstanceService, ICommandService, IContextService],
    },
  ],
];
