import type { FigureSpec } from "../figures/spec";
import { host } from "../host/current";
import { escapeHtml } from "./emit";
import { interactiveScript } from "./figureScript";

/**
 * Shows a figure: a static image with its alternative text, which survives an untrusted notebook and an export, and a
 * script that makes it interactive where Plotly.js is at hand.
 *
 * Await it: `await figure(figures.flowDuration(…))`. Throws a TypeError for a specification without alternative text.
 */
export async function figure(spec: FigureSpec): Promise<void> {
  // Six digits are more than a picture can show; the rest would only differ between machines.
  const { data, layout, alt, caption } = JSON.parse(JSON.stringify(spec, sixDigits)) as FigureSpec; // plain data, as it was
  const svg = await host.drawSvg({ data, layout, alt });
  const json = JSON.stringify({ data, layout });
  const id = `figure-${fingerprint(json)}`;
  const image = `<img alt="${escapeHtml(alt)}" src="data:image/svg+xml;base64,${base64(svg)}" style="max-width:100%;height:auto">`;
  const captionHtml = caption === undefined ? "" : `<figcaption>${escapeHtml(caption)}</figcaption>`;
  host.emit({
    "text/html": `<figure data-figure="${id}">${image}${captionHtml}</figure>\n<script>${interactiveScript(id, json)}</script>`,
    "application/vnd.plotly.v1+json": { data, layout, config: { responsive: true, displaylogo: false } },
    "text/plain": `Figure: ${alt}`,
  });
}

function sixDigits(_key: string, value: unknown): unknown {
  // JSON would write a typed array as an object.
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) return Array.from(value as Float64Array);
  return typeof value === "number" && !Number.isInteger(value) ? Number(value.toPrecision(6)) : value;
}

/** A short name for a figure that is the same on every run (FNV-1a, 32 bits). */
function fingerprint(text: string): string {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, "0");
}

function base64(text: string): string {
  const bytes = new TextEncoder().encode(text);
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
}
