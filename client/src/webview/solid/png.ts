import type { Solid } from '@framewright/schemas/wire';
import { onSheet, type Projection } from './look';
import { labelsOf, linesOf, marksOf, strokes } from './picture';
import { type Colours, captionOf, headColour, markLook } from './svg';

/** What is seen, as a PNG in base 64; twice as fine as on the screen. */
export function solidPng(
  solid: Solid,
  projection: Projection,
  colours: Colours,
  title: string,
): string | null {
  const { width, height } = projection.size;
  const canvas = document.createElement('canvas');
  canvas.width = 2 * width;
  canvas.height = 2 * height;
  const context = canvas.getContext('2d');
  if (context === null) return null;
  context.scale(2, 2);
  context.fillStyle = colours.paper;
  context.fillRect(0, 0, width, height);
  drawLines(context, solid, projection, colours);
  const marks = marksOf(solid, projection);
  for (const { point, x, y, head } of marks) {
    if (head !== null) {
      context.fillStyle = colours[headColour(point.state)];
      context.fill(new Path2D(head));
    }
    context.save();
    context.translate(x, y);
    const { fill, stroke, width: thick, dash } = markLook(point.state);
    const shape = new Path2D(solid.symbols[point.state]);
    context.setLineDash(dash === '' ? [] : dash.split(' ').map(Number));
    context.lineWidth = thick;
    if (fill !== 'none') {
      context.fillStyle = colours[fill];
      context.fill(shape);
    }
    if (stroke !== 'none') {
      context.strokeStyle = colours[stroke];
      context.stroke(shape);
    }
    context.restore();
  }
  context.setLineDash([]);
  context.font = '11px system-ui, sans-serif';
  context.lineWidth = 2.5;
  context.strokeStyle = colours.paper;
  context.fillStyle = colours.ink;
  const words = [title, captionOf(solid)].filter((each) => each !== '').join(' · ');
  for (const { id, x, y } of [...labelsOf(marks, projection), { id: words, x: 6, y: 18 }]) {
    context.strokeText(id, x, y);
    context.fillText(id, x, y);
  }
  return canvas.toDataURL('image/png').replace(/^data:image\/png;base64,/, '');
}

function drawLines(
  context: CanvasRenderingContext2D,
  solid: Solid,
  projection: Projection,
  colours: Colours,
): void {
  for (const [kind, lines] of linesOf(solid)) {
    const { colour, width, opacity, dash } = strokes[kind];
    context.strokeStyle = colours[colour];
    context.lineWidth = width;
    context.globalAlpha = opacity;
    context.setLineDash(dash === null ? [] : [...dash]);
    context.beginPath();
    for (const [from, to] of lines) {
      context.moveTo(...onSheet(projection, from));
      context.lineTo(...onSheet(projection, to));
    }
    context.stroke();
  }
  context.globalAlpha = 1;
}
