/** A heading that the contents of a page lists. */
export interface Heading {
  readonly level: 2 | 3;
  readonly id: string;
  /** The heading's words as safe HTML: text, code and equations, no links. */
  readonly html: string;
}

/** Gives every heading of one page an id of its own. */
export class HeadingIds {
  private readonly taken = new Set<string>();

  /** Returns an id made of the words: "Head loss, clean" gives "head-loss-clean", a second one "head-loss-clean-2". */
  next(words: string): string {
    const base =
      words
        .normalize("NFKD")
        .toLowerCase()
        .replace(/[^\p{Letter}\p{Number}]+/gu, "-")
        .replace(/^-+|-+$/g, "")
        .slice(0, 60) || "section";
    let id = base;
    for (let count = 2; this.taken.has(id); count++) id = `${base}-${count}`;
    this.taken.add(id);
    return id;
  }
}
