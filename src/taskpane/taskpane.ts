import "../ui/styles.css";
import "./taskpane.css";
import { connectOffice } from "./connect-office";
import { startPane } from "./pane";
import { makePreferences } from "./preferences";

async function start(): Promise<void> {
  const root = document.getElementById("pane");
  if (root === null) return;
  const { host, theme, partition } = await connectOffice();
  if (theme !== undefined) document.documentElement.dataset["theme"] = theme;
  startPane(root, {
    host,
    preferences: makePreferences(partition, () => localStorage),
    now: () => new Date().toISOString(),
  });
}

void start();
