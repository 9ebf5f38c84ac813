import type { Place } from '@framewright/schemas/wire';

/** From where the body is seen, square to the sheet: no line is shortened by its distance. Angles in degrees. */
export interface Look {
  /** About up; 0 looks forward from behind, 90 from the right to the left. */
  readonly turn: number;
  /** 90 looks down from above, 0 from the side. */
  readonly tilt: number;
  /** 1 shows the whole. */
  readonly zoom: number;
  /** The middle of the sheet is moved by so much, in parts of its smaller side. */
  readonly moved: readonly [across: number, up: number];
}

export const looks = {
  reset: { turn: 145, tilt: 28, zoom: 1, moved: [0, 0] },
  /** As the plan is drawn: forward to the right, left up. */
  above: { turn: 90, tilt: 90, zoom: 1, moved: [0, 0] },
  left: { turn: -90, tilt: 0, zoom: 1, moved: [0, 0] },
  front: { turn: 180, tilt: 0, zoom: 1, moved: [0, 0] },
} as const satisfies Record<string, Look>;

const turnStep = 10;
const moveStep = 0.08;
const zoomStep = 1.25;
const zoomLimits = [0.3, 40] as const;

export const turned = (look: Look, turn: number, tilt: number): Look => ({
  ...look,
  turn: ((look.turn + turn + 540) % 360) - 180,
  tilt: Math.max(-90, Math.min(90, look.tilt + tilt)),
});

export const moved = (look: Look, across: number, up: number): Look => ({
  ...look,
  moved: [look.moved[0] + across, look.moved[1] + up],
});

export const zoomed = (look: Look, times: number): Look => ({
  ...look,
  zoom: Math.max(zoomLimits[0], Math.min(zoomLimits[1], look.zoom * times)),
});

export const nearer = (look: Look): Look => zoomed(look, zoomStep);
export const farther = (look: Look): Look => zoomed(look, 1 / zoomStep);

/** What a key makes of it; null where it does nothing. */
export function lookAfter(look: Look, key: string, shift: boolean): Look | null {
  switch (key) {
    case 'ArrowLeft':
      return shift ? moved(look, -moveStep, 0) : turned(look, turnStep, 0);
    case 'ArrowRight':
      return shift ? moved(look, moveStep, 0) : turned(look, -turnStep, 0);
    case 'ArrowUp':
      return shift ? moved(look, 0, moveStep) : turned(look, 0, turnStep);
    case 'ArrowDown':
      return shift ? moved(look, 0, -moveStep) : turned(look, 0, -turnStep);
    case '+':
    case '=':
      return nearer(look);
    case '-':
    case '_':
      return farther(look);
    case '0':
    case 'Home':
      return looks.reset;
    default:
      return null;
  }
}

/** The sheet in vehicle axes: unit vectors to its right, up it, and out of it towards the eye. */
interface Sheet {
  readonly right: Place;
  readonly up: Place;
  readonly out: Place;
}

export function sheetOf({ turn, tilt }: Look): Sheet {
  const [a, b] = [(turn * Math.PI) / 180, (tilt * Math.PI) / 180];
  // seen from behind at 0: the eye is at −x, left of the car is left on the sheet
  return {
    right: [Math.sin(a), -Math.cos(a), 0],
    up: [Math.sin(b) * Math.cos(a), Math.sin(b) * Math.sin(a), Math.cos(b)],
    out: [-Math.cos(b) * Math.cos(a), -Math.cos(b) * Math.sin(a), Math.sin(b)],
  };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** How a look lies on a sheet of some size. */
export interface Projection {
  readonly sheet: Sheet;
  readonly pxPerMm: number;
  /** mm of the body at the middle of the sheet, along the sheet's right and up. */
  readonly middle: readonly [number, number];
  readonly size: Size;
}

const dot = (a: Place, b: Place): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

interface Box {
  readonly least: Place;
  readonly most: Place;
}

/** px for a millimetre at which the whole fits in every named look, with a rim: turning does not change the scale. */
function fittingScale({ least, most }: Box, { width, height }: Size): number {
  const extents: Place = [most[0] - least[0], most[1] - least[1], most[2] - least[2]];
  const span = (way: Place) =>
    Math.abs(way[0]) * extents[0] + Math.abs(way[1]) * extents[1] + Math.abs(way[2]) * extents[2] || 1;
  const scales = Object.values(looks).map((look) => {
    const { right, up } = sheetOf(look);
    return Math.min(width / span(right), height / span(up));
  });
  return 0.94 * Math.min(...scales);
}

/** @param box what is to be seen, mm */
export function projectionOf(look: Look, box: Box, size: Size): Projection {
  const sheet = sheetOf(look);
  const { least, most } = box;
  const centre: Place = [(least[0] + most[0]) / 2, (least[1] + most[1]) / 2, (least[2] + most[2]) / 2];
  const pxPerMm = look.zoom * fittingScale(box, size);
  const smaller = Math.min(size.width, size.height) / pxPerMm;
  return {
    sheet,
    pxPerMm,
    middle: [
      dot(centre, sheet.right) - look.moved[0] * smaller,
      dot(centre, sheet.up) - look.moved[1] * smaller,
    ],
    size,
  };
}

/** A position of the body on the sheet, px from its upper left corner. */
export function onSheet({ sheet, pxPerMm, middle, size }: Projection, place: Place): [number, number] {
  return [
    size.width / 2 + (dot(place, sheet.right) - middle[0]) * pxPerMm,
    size.height / 2 - (dot(place, sheet.up) - middle[1]) * pxPerMm,
  ];
}
