/** The invented plant: facts that more than one record set needs. Units stand in the names of the columns. */
export const halvernWeir = {
  meanFlow: 41,
  designDischarge: 34,
  units: 2,
  dischargePerUnit: 17,
  bestDischarge: 14.5,
  grossHead: 5.4,
  netHead: 5.3,
  rotationalSpeed: 187.5,
  runnerDiameter: 1.95,
  hubDiameter: 0.82,
  blades: 4,
  efficiency: 0.9,
  channelWidth: 17,
  channelDepth: 3.6,
  clearSpacings: [12, 18, 25, 40],
} as const;
