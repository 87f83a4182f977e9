/** Ohms of a metre of copper wire of 1 mm² at 20 °C: IEC 60028. */
export const COPPER = 0.017241;
