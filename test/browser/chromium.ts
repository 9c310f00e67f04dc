import { existsSync } from "node:fs";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { requireOnCI } from "./requireOnCI";

const executable = process.env["CHROMIUM"] ?? "/usr/bin/chromium";

/** Whether the tests in a browser can run on this machine. */
export const hasChromium = requireOnCI(`Chromium (${executable})`, existsSync(executable));

const quiet = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Starts the browser, told to ask nothing of the network for itself. */
export function startChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: executable, args: quiet });
}

/** A page that writes down everything it must not do. */
export interface WatchedPage {
  readonly page: Page;
  /** Errors and warnings on the console, uncaught errors, and requests that failed. */
  readonly complaints: string[];
  /** Requests that would have left this machine; each was stopped. */
  readonly escapes: string[];
}

/** Opens a page that is watched, and that can reach this machine alone. */
export async function watchedPage(context: BrowserContext): Promise<WatchedPage> {
  const page = await context.newPage();
  const complaints: string[] = [];
  const escapes: string[] = [];
  await page.route("**/*", (route) => {
    const { protocol, hostname } = new URL(route.request().url());
    if (["file:", "data:", "blob:"].includes(protocol) || hostname === "127.0.0.1") return route.continue();
    escapes.push(route.request().url());
    return route.abort();
  });
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("requestfailed", (request) => complaints.push(`${request.url()}: ${request.failure()?.errorText}`));
  return { page, complaints, escapes };
}
