import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { createContext, runInContext } from "node:vm";

/** What Microsoft's runtime tells Excel about one call. */
export interface HostResult {
  readonly ok: boolean;
  readonly value: unknown;
  readonly code: unknown;
}

interface Bridge {
  onMessageFromHost?: (text: string) => void;
  sendMessageToHost: (text: string) => void;
}

interface HostAction {
  readonly Id: number;
  readonly Name?: string;
  readonly ArgumentInfo?: { readonly Arguments?: readonly unknown[] };
}

const ignore = (): void => undefined;
const require = createRequire(import.meta.url);
const runtimeFile = join(
  dirname(require.resolve("@microsoft/office-js/package.json")),
  "dist",
  "custom-functions-runtime.js",
);

/**
 * Microsoft's custom-functions runtime with a stand-in for Excel's end of the bridge. It shows how arguments and results
 * are marshalled and which functions registered; Excel's own conversions are not part of it.
 */
export class CustomFunctionsHost {
  private readonly bridge: Bridge;
  private readonly waiting = new Map<number, (result: HostResult) => void>();
  private readonly context: Record<string, unknown>;
  private nextCall = 1;

  constructor(bundle: string) {
    this.bridge = {
      sendMessageToHost: (text) => {
        this.answer(text);
      },
    };
    this.context = {
      _richApiNativeBridge: this.bridge,
      console,
      setTimeout,
      clearTimeout,
      setInterval,
      clearInterval,
    };
    // The runtime looks for its own script element and appends others; nothing it appends matters here.
    const element = {
      src: "https://localhost/custom-functions-runtime.js",
      setAttribute: ignore,
      appendChild: ignore,
    };
    this.context["document"] = {
      getElementsByTagName: () => [element],
      createElement: () => ({ ...element }),
    };
    this.context["window"] = this.context;
    this.context["addEventListener"] = ignore;
    this.context["history"] = {};
    this.context["location"] = { href: "https://localhost/taskpane.html", search: "", hash: "" };
    this.context["navigator"] = { userAgent: "node" };
    createContext(this.context);
    runInContext(readFileSync(runtimeFile, "utf8"), this.context);
    runInContext(readFileSync(bundle, "utf8"), this.context);
  }

  /** Names under which functions registered. */
  registered(): readonly string[] {
    const names = runInContext(
      "Object.keys(CustomFunctions._association.mappings)",
      this.context,
    ) as string[];
    return [...names];
  }

  /** Calls a function as Excel does: arguments in order, null where one is left out. */
  call(functionName: string, parameterValues: readonly unknown[]): Promise<HostResult> {
    const invocationId = this.nextCall++;
    const message = { invocationId, functionName, parameterValues, address: "Sheet1!A1", flags: 0 };
    const entry = { messageCategory: 1, messageType: 1000, message: JSON.stringify(message) };
    const reply = new Promise<HostResult>((resolve) => this.waiting.set(invocationId, resolve));
    this.bridge.onMessageFromHost?.(
      JSON.stringify({ type: 3, message: { entries: [{ ...entry, message }] } }),
    );
    return reply;
  }

  private answer(text: string): void {
    const { id, message } = JSON.parse(text) as { id: number; message: { body?: unknown } };
    const body = typeof message.body === "string" ? (JSON.parse(message.body) as unknown) : message.body;
    const actions = (body as { Actions?: readonly HostAction[] } | undefined)?.Actions ?? [];
    for (const action of actions) if (action.Name?.startsWith("SetInvocation")) this.take(action);
    const reply = {
      id,
      type: 2,
      message: {
        statusCode: 200,
        headers: {},
        body: { Results: actions.map((action) => ({ ActionId: action.Id, Value: null })) },
      },
    };
    setTimeout(() => this.bridge.onMessageFromHost?.(JSON.stringify(reply)), 0);
  }

  private take(action: HostAction): void {
    const rows = (action.ArgumentInfo?.Arguments?.[0] ?? []) as readonly (readonly unknown[])[];
    for (const [id, ok, value, code] of rows) {
      this.waiting.get(Number(id))?.({ ok: ok === true, value, code });
      this.waiting.delete(Number(id));
    }
  }
}
