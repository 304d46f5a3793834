/** The air and the sun around a line; `ranges.ts` holds what is allowed. */
export interface Weather {
  ambientC: number
  windMS: number
  /** Between wind and conductor axis: 0 along it, 90 across it. Other angles are folded into 0 … 90. */
  windAngleDeg: number
  /** Sun and sky on the area that the conductor turns to the sun, W/m²: intensity at the elevation times the sine of the angle of incidence. */
  sunWPerM2: number
  elevationM: number
}

/** A long round body in the wind. */
export interface Cylinder {
  diameterM: number
  emissivity: number
  absorptivity: number
}

/** ac resistance per metre at two temperatures; straight between and beyond them, as IEEE Std 738 has it. */
export interface LineResistance {
  lowC: number
  lowOhmPerM: number
  highC: number
  highOhmPerM: number
}

/** A cylinder that a current heats: a bare conductor, or the barrel of a splice. */
export interface HeatedCylinder extends Cylinder {
  resistance: LineResistance
}
