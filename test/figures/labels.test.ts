import { expect, test } from "vitest";
import { labelBoard } from "../../kernel-helpers/src/figures/labels";

const empty = { x: [0, 100], y: [0, 1], busy: [] } as const;

test("two labels of one point stand apart", () => {
  const board = labelBoard(empty);
  const [one, other] = [1, 2].map(() => board.point({ x: 50, y: 0.5, text: "design discharge" }));
  const distance = Math.hypot(Number(one.ax) - Number(other.ax), Number(one.ay) - Number(other.ay));
  expect(distance).toBeGreaterThan(20);
});

test("a label at the right end stands left of its point, inside the plot", () => {
  const { ax } = labelBoard(empty).point({ x: 100, y: 0.5, text: "design discharge" });
  expect(Number(ax)).toBeLessThan(-50);
});

test("a label leaves a curve free where there is room beside it", () => {
  const level = { x: [0, 100], y: [0.5, 0.5] };
  const { ay } = labelBoard({ ...empty, busy: [level] }).point({ x: 50, y: 0.5, text: "design discharge" });
  expect(Math.abs(Number(ay))).toBeGreaterThan(12);
});

test("a vertical line's label stands at the side that has room, and off the curve", () => {
  const low = { x: [0, 100], y: [0.05, 0.05] };
  const board = labelBoard({ ...empty, busy: [low] });
  expect(board.verticalLine({ x: 98, text: "as wide as the gap" })).toMatchObject({ xanchor: "right" });
  const left = board.verticalLine({ x: 2, text: "threshold 0.25" });
  expect(left).toMatchObject({ xanchor: "left" });
  expect(Number(left.y)).toBeGreaterThan(0.08);
});

test("a horizontal line's label stands off the curve, at the side of the line that has room", () => {
  const besideLeftHalf = [0.53, 0.47].map((level) => ({ x: [0, 45], y: [level, level] }));
  const board = labelBoard({ ...empty, busy: besideLeftHalf });
  const label = board.horizontalLine({ y: 0.5, text: "cleaner starts" });
  expect(label).toMatchObject({ y: 0.5, xref: "paper", text: "cleaner starts" });
  expect(Number(label.x)).toBeGreaterThan(0.45);
  expect(board.horizontalLine({ y: 0.99, text: "limit" })).toMatchObject({ yanchor: "top" });
  expect(board.horizontalLine({ y: 0.01, text: "floor" })).toMatchObject({ yanchor: "bottom" });
});
