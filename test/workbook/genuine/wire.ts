/** The form in which Excel's own client library asks its host: a batch of actions on objects, each object told by its path. */
export interface RequestBody {
  readonly Actions: readonly ActionInfo[];
  readonly ObjectPaths: Readonly<Record<string, ObjectPathInfo>>;
}

export interface ArgumentInfo {
  readonly Arguments?: readonly unknown[];
  /** Beside each argument the path of the object that stands for it, 0 for a plain value. */
  readonly ReferencedObjectPathIds?: readonly unknown[] | null;
}

export interface ObjectPathInfo {
  readonly Id: number;
  readonly ObjectPathType: number;
  /** "GetRange", "Format"; the reference's id where the path is a kept reference. */
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: ArgumentInfo;
  /** The class of the object, "Range": the library adds it when it is asked to. */
  readonly T?: string;
}

export interface ActionInfo {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: ArgumentInfo;
  readonly QueryInfo?: { readonly Select?: readonly string[]; readonly Expand?: unknown; readonly Top?: number; readonly Skip?: number };
}

export const PATH = { globalObject: 1, method: 3, property: 4, indexer: 5, reference: 6, nullObject: 7 } as const;
export const ACTION = { instantiate: 1, query: 2, method: 3, setProperty: 4, trace: 5 } as const;

export interface ResponseBody {
  readonly Results: readonly { readonly ActionId: number; readonly Value: unknown }[];
  readonly TraceIds: readonly number[];
  readonly Error?: { readonly Code: string; readonly Message: string; readonly Location?: string; readonly ActionIndex: number; readonly HttpStatusCode: number };
}

export interface Response {
  readonly HttpStatusCode: number;
  readonly ErrorCode: null;
  readonly ErrorMessage: null;
  readonly Headers: object;
  readonly Body: ResponseBody;
}

/** What the library hands a batch to. */
export interface RequestExecutor {
  executeAsync(customData: string, requestFlags: number, message: { readonly Body: RequestBody }): Promise<Response>;
}

/** "GetRange" to "getRange", as the members are called in code. */
export const memberName = (wireName: string): string => wireName.charAt(0).toLowerCase() + wireName.slice(1);
/** "rowIndex" to "RowIndex". */
export const wireName = (member: string): string => member.charAt(0).toUpperCase() + member.slice(1);
