/**
 * Widths of text where no browser measures it.
 *
 * The table holds the advance widths of DejaVu Sans in thousandths of the font size. It is the widest of the
 * sans-serif faces a reader is likely to have (Arial and Helvetica are about a tenth narrower), so that room
 * measured here is enough everywhere and labels do not overlap.
 */
const charactersByWidth: Readonly<Record<number, string>> = {
  0: "\u00AD\u200B",
  227: "′",
  278: "ijlı'",
  295: "IJΙ",
  318: " ,.\u00A0·‘’",
  337: "/:;\\|¦ι",
  352: "f",
  361: "-‑",
  374: "″",
  390: "()[]",
  392: "t",
  401: "!¡⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉ⁿ",
  411: "r",
  460: '"',
  500: "*_`°–∥´¨",
  518: "∂“”",
  525: "sz",
  531: "?⁺⁻₊₋₌",
  550: "cεζ",
  557: "LΓξν",
  592: "Fkvxyυγλκχς•",
  603: "PΡπτ",
  613: "aeoøοTYδθ",
  635: "bdghnpquSß$0123456789{}€£µμβηρσ√",
  632: "EΕΞΣ",
  656: "Kα",
  684: "AVXZBRΑΔΛΖΧφψ∆",
  698: "C∑",
  732: "UN∝",
  752: "HΗΝΠ",
  770: "DGΩ&▲▼◆◇",
  787: "OQΘΟΦΨ",
  818: "w",
  838: "#+<=>^~¬±×÷←↑→↓↔−≈≠≤≥✓✗∞ω",
  863: "MΜ",
  896: "○●∠★☆",
  950: "%■□",
  974: "m½¼¾",
  1000: "W@—…Ææ",
  1342: "‰",
};

/** Width of a character outside the table: wider than the mean letter, so that room is not too small. */
const unknownWidth = 0.7;
/** Writing systems whose characters fill the square. */
const fullWidthCharacter = /[\u1100-\u11FF\u2E80-\uFFDC\u{1F000}-\u{1FAFF}]/u;
/** Bold DejaVu Sans is about this much wider than the regular face. */
const boldFactor = 1.12;

const widthOf = new Map<string, number>();
for (const [width, characters] of Object.entries(charactersByWidth)) {
  for (const character of characters) widthOf.set(character, Number(width) / 1000);
}

function characterWidth(character: string): number {
  const known = widthOf.get(character);
  if (known !== undefined) return known;
  // An accented letter is as wide as its base letter.
  const base = character.normalize("NFD").charAt(0);
  const baseWidth = widthOf.get(base);
  if (baseWidth !== undefined) return baseWidth;
  return fullWidthCharacter.test(character) ? 1 : unknownWidth;
}

/**
 * Width of one line of text.
 *
 * Returns the width in pixels.
 *
 * @example
 * textWidth("12 mm", { size: 10, bold: false }) // => 35.36
 */
export function textWidth(text: string, font: { readonly size: number; readonly bold: boolean }): number {
  let width = 0;
  for (const character of text) width += characterWidth(character);
  return width * font.size * (font.bold ? boldFactor : 1);
}

/** Height of the tallest letters above the baseline, in pixels, whole as browsers round it. */
export function ascent(size: number): number {
  return Math.round(0.928 * size);
}

/** Depth of the deepest letters below the baseline, in pixels, whole as browsers round it. */
export function descent(size: number): number {
  return Math.round(0.236 * size);
}
