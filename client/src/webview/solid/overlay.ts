import type { Solid } from '@framewright/schemas/wire';
import type { Projection } from './look';
import { labelsOf, linesOf, marksOf, strokes } from './picture';
import { type Colours, headColour, linePath, markLook } from './svg';

const svg = 'http://www.w3.org/2000/svg';

/** The marks and names over the lines: as elements, so that each has its words and is pointed at like those of the flat drawing. */
export class Overlay {
  readonly root = document.createElementNS(svg, 'svg');
  private readonly lines = document.createElementNS(svg, 'g');
  private readonly heads = document.createElementNS(svg, 'g');
  private readonly marks = document.createElementNS(svg, 'g');
  private readonly labels = document.createElementNS(svg, 'g');

  constructor(private readonly withLines: boolean) {
    this.root.setAttribute('fill', 'none');
    this.root.append(this.lines, this.heads, this.marks, this.labels);
    for (const each of [this.lines, this.heads, this.labels]) each.setAttribute('aria-hidden', 'true');
  }

  /** The marks of a stage; where they lie follows with `draw`. */
  put(solid: Solid, colours: Colours): void {
    this.marks.replaceChildren(
      ...solid.points.map((point) => {
        const { fill, stroke, width, dash } = markLook(point.state);
        const group = made('g', { 'data-point': point.id, role: 'img', 'aria-label': point.text });
        group.append(
          // a small mark is easier hit than seen
          made('circle', { r: '8', fill: 'transparent' }),
          made('path', {
            d: solid.symbols[point.state],
            fill: paint(fill, colours),
            stroke: paint(stroke, colours),
            'stroke-width': String(width),
            ...(dash === '' ? {} : { 'stroke-dasharray': dash }),
          }),
        );
        if (point.selected)
          group.append(made('circle', { r: '9', stroke: colours.ink, 'stroke-width': '1.6' }));
        return group;
      }),
    );
  }

  draw(solid: Solid, projection: Projection, colours: Colours): void {
    const marks = marksOf(solid, projection);
    marks.forEach(({ x, y }, i) => {
      this.marks.children[i]?.setAttribute('transform', `translate(${x.toFixed(1)} ${y.toFixed(1)})`);
    });
    this.heads.replaceChildren(
      ...marks.flatMap(({ head, point }) =>
        head === null ? [] : [made('path', { d: head, fill: colours[headColour(point.state)] })],
      ),
    );
    this.labels.replaceChildren(
      ...labelsOf(marks, projection).flatMap(({ id, x, y, from, to }) => {
        const text = made('text', {
          x: String(x),
          y: String(y),
          'font-size': '11',
          fill: colours.ink,
          stroke: colours.paper,
          'stroke-width': '2.5',
          'paint-order': 'stroke',
        });
        text.textContent = id;
        return [
          made('path', {
            d: `M${from.join(' ')}L${to.join(' ')}`,
            stroke: colours.quiet,
            'stroke-width': '.7',
          }),
          text,
        ];
      }),
    );
    if (this.withLines) this.drawLines(solid, projection, colours);
  }

  private drawLines(solid: Solid, projection: Projection, colours: Colours): void {
    this.lines.replaceChildren(
      ...[...linesOf(solid)].map(([kind, lines]) => {
        const { colour, width, opacity, dash } = strokes[kind];
        return made('path', {
          d: linePath(lines, projection),
          stroke: colours[colour],
          'stroke-width': String(width),
          'stroke-opacity': String(opacity),
          ...(dash === null ? {} : { 'stroke-dasharray': dash.join(' ') }),
        });
      }),
    );
  }
}

const paint = (role: keyof Colours | 'none', colours: Colours): string =>
  role === 'none' ? 'none' : colours[role];

function made(name: string, attributes: Readonly<Record<string, string>>): SVGElement {
  const element = document.createElementNS(svg, name);
  for (const [attribute, value] of Object.entries(attributes)) element.setAttribute(attribute, value);
  return element;
}
