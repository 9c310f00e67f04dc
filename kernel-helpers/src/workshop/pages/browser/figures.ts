/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
// Runs in the page as a classic script (see assets.ts): it can import types only.

interface Specification {
  readonly data: readonly unknown[];
  readonly layout: Readonly<Record<string, unknown>>;
}

/** What this script uses of plotly.js, which another classic script puts on the window. */
interface Plotly {
  newPlot(place: HTMLElement, data: unknown, layout: unknown, config: unknown): Promise<unknown>;
  purge(place: HTMLElement): void;
}

const drawing: { plotly?: Promise<Plotly> } = {};

/** Loads the one shared copy of plotly.js, once, when a reader first asks for it. */
const plotly = (): Promise<Plotly> => {
  drawing.plotly ??= new Promise<Plotly>((resolve, reject) => {
    const script = document.createElement("script");
    script.src = "assets/plotly.js";
    script.addEventListener("load", () => {
      const loaded: unknown = Reflect.get(window, "Plotly");
      // The script that has just run is plotly.js, which sets this.
      if (loaded !== undefined) resolve(loaded as Plotly);
      else reject(new Error("assets/plotly.js was read and did not start."));
    });
    script.addEventListener("error", () => {
      // The next attempt starts anew.
      delete drawing.plotly;
      script.remove();
      reject(new Error("assets/plotly.js could not be read."));
    });
    document.head.append(script);
  });
  return drawing.plotly;
};

const touchOnly = window.matchMedia("(hover: none)").matches;

class Figure {
  private readonly live = document.createElement("div");
  private readonly button = document.createElement("button");
  private readonly status = document.createElement("span");
  private state: "still" | "loading" | "live" = "still";
  /** The reader chose the still picture: passing over it with the pointer must not undo that. */
  private keepStill = false;

  constructor(
    private readonly figure: HTMLElement,
    box: HTMLElement,
    private readonly still: HTMLElement,
    private readonly specification: Specification,
  ) {
    this.live.className = "live";
    this.live.hidden = true;
    this.live.setAttribute("role", "img");
    this.live.setAttribute("aria-label", `Interactive figure. ${still.querySelector("img")?.alt ?? ""}`);
    box.append(this.live);
    this.button.type = "button";
    this.status.setAttribute("role", "status");
    const bar = document.createElement("div");
    bar.className = "plot-bar";
    bar.append(this.status, this.button);
    box.after(bar);
    this.rest();
  }

  /** Lets the reader turn the figure interactive: by its button, by a tap, or by pointing at it. */
  listen(): void {
    this.button.addEventListener("click", () => {
      this.keepStill = this.state === "live";
      if (this.state === "live") this.rest();
      else void this.wake();
    });
    this.still.addEventListener("click", () => void this.wake());
    this.still.addEventListener("pointerenter", (event) => {
      if (event.pointerType === "mouse" && !this.keepStill) void this.wake();
    });
  }

  private rest(): void {
    this.state = "still";
    this.still.hidden = false;
    this.live.hidden = true;
    this.figure.classList.remove("is-live");
    this.button.textContent = "Read values";
    this.status.textContent = "";
  }

  private async wake(): Promise<void> {
    if (this.state !== "still") return;
    this.state = "loading";
    this.status.textContent = "Drawing the figure…";
    try {
      const library = await plotly();
      await this.draw(library);
      this.state = "live";
      this.button.textContent = "Still picture";
      this.status.textContent = touchOnly ? "Tap the figure to read it." : "Point at the figure to read it.";
    } catch (reason) {
      this.rest();
      this.status.textContent = `The figure stays still: ${reason instanceof Error ? reason.message : String(reason)}`;
    }
  }

  private async draw(library: Plotly): Promise<void> {
    const { width, height } = this.still.getBoundingClientRect();
    const { naturalWidth, naturalHeight } = this.still.querySelector("img") ?? {
      naturalWidth: 0,
      naturalHeight: 0,
    };
    const { width: _, ...layout } = this.specification.layout;
    // Labels are placed for the picture's own size: where there is much less room the figure keeps that and scrolls.
    const cramped = width < 0.85 * naturalWidth;
    this.live.style.minWidth = cramped ? `${naturalWidth}px` : "";
    this.live.style.height = `${Math.max(300, cramped ? naturalHeight : height)}px`;
    this.live.hidden = false;
    this.figure.classList.add("is-live");
    this.still.hidden = true;
    await library.newPlot(
      this.live,
      this.specification.data,
      // Dragging would zoom, and on a touch screen hold the page fast.
      { ...layout, height: undefined, autosize: true, dragmode: touchOnly ? false : "zoom" },
      { responsive: true, displayModeBar: false, scrollZoom: false, doubleClick: "reset", showTips: false },
    );
  }
}

const isSpecification = (value: unknown): value is Specification =>
  typeof value === "object" &&
  value !== null &&
  Array.isArray(Reflect.get(value, "data")) &&
  typeof Reflect.get(value, "layout") === "object";

for (const figure of document.querySelectorAll<HTMLElement>("figure.plot")) {
  const json = figure.querySelector("script.plot-specification");
  const box = figure.querySelector<HTMLElement>(".plot-box");
  const still = figure.querySelector<HTMLElement>(".still");
  if (json === null || box === null || still === null) continue;
  const specification: unknown = JSON.parse(json.textContent ?? "");
  if (isSpecification(specification)) new Figure(figure, box, still, specification).listen();
}

// What scrolls in a box of its own must be reachable with the keyboard, and only where it does scroll.
const boxes = [...document.querySelectorAll<HTMLElement>(".scroll, .equation, pre")];
const markScrolling = (): void => {
  for (const box of boxes) {
    if (box.scrollWidth > box.clientWidth + 1 || box.scrollHeight > box.clientHeight + 1) box.tabIndex = 0;
    else box.removeAttribute("tabindex");
  }
};
markScrolling();
void document.fonts.ready.then(markScrolling);
window.addEventListener("resize", markScrolling);
