/** How far along the car or a part points still count as one station, mm; a choice of the project. */
export const stationLengthMm = 40;
