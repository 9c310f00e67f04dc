import { energy, figures, u } from "kernel-helpers";

const rackOf = (spacing: number, bars: string, angle: number, survival: number, gigawattHours: number) => ({
  name: `${spacing} mm, ${bars}, ${angle}°`,
  survival,
  energy: u.GWh(gigawattHours),
});

/** Many options, some of them nearly alike. */
export const weighedOptions = energy.tradeOff({
  options: [
    rackOf(40, "rectangular", 38, 0.872, 9.101),
    rackOf(40, "streamlined", 38, 0.872, 9.116),
    rackOf(25, "rectangular", 38, 0.893, 9.078),
    rackOf(25, "streamlined", 38, 0.893, 9.107),
    rackOf(18, "rectangular", 38, 0.917, 9.051),
    rackOf(18, "streamlined", 38, 0.917, 9.093),
    rackOf(12, "rectangular", 38, 0.942, 9.003),
    rackOf(12, "streamlined", 38, 0.942, 9.071),
    rackOf(12, "rectangular", 60, 0.942, 8.94),
    { name: "40 mm, shutdown in autumn nights", survival: 0.905, energy: u.GWh(8.52) },
  ],
  reference: "40 mm, rectangular, 38°",
  pricePerMWh: 80,
  interestRate: 0.04,
  years: 30,
});

/** The figures of energy and survival. */
export const energyFigures: Readonly<Record<string, figures.FigureSpec>> = {
  tradeOff: figures.tradeOff({
    title: "Racks and a shutdown, weighed",
    options: weighedOptions,
    labelled: ["40 mm, shutdown in autumn nights"],
  }),
};
