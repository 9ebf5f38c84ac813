import type { Solid } from '@framewright/schemas/wire';
import type { FromPage } from '../../drawing/messages';
import { element } from '../page';
import type { SolidPage } from '../solid-page';
import {
  farther,
  type Look,
  lookAfter,
  looks,
  moved,
  nearer,
  type Projection,
  projectionOf,
  turned,
  zoomed,
} from './look';
import { Overlay } from './overlay';
import { solidPng } from './png';
import { SolidScene } from './scene';
import { type Colours, captionOf, solidSvg } from './svg';

/** The view in space: turns what the server worked out; loaded when it is first wanted. */
class SolidView implements SolidPage {
  private readonly place = element('solid');
  private readonly scene = sceneOrNull();
  private readonly overlay = new Overlay(this.scene === null);
  private solid: Solid | null = null;
  private look: Look = looks.reset;
  private due = false;
  private put = false;

  constructor(private readonly tell: (message: FromPage) => void) {
    if (this.scene !== null) {
      this.scene.canvas.setAttribute('aria-hidden', 'true');
      this.place.append(this.scene.canvas);
    }
    this.place.append(this.overlay.root);
    this.listen();
  }

  show(solid: Solid): void {
    this.solid = solid;
    this.put = true;
    const missing =
      this.scene === null ? 'WebGL is not available here: the lines are drawn without it. ' : '';
    element('solid-words').textContent = missing + captionOf(solid);
    this.redraw();
  }

  private turnTo(look: Look): void {
    this.look = look;
    this.redraw();
  }

  /** Once a frame, however often something changed. */
  private redraw(): void {
    if (this.due) return;
    this.due = true;
    requestAnimationFrame(() => {
      this.due = false;
      this.draw();
    });
  }

  private draw(): void {
    const projection = this.projection();
    if (this.solid === null || projection === null) return;
    const colours = themeColours();
    if (this.put) {
      this.scene?.put(this.solid, colours);
      this.overlay.put(this.solid, colours);
      this.put = false;
    }
    this.scene?.draw(projection);
    this.overlay.draw(this.solid, projection, colours);
  }

  /** Null while it is not to be seen. */
  private projection(): Projection | null {
    const { clientWidth: width, clientHeight: height } = this.place;
    return this.solid === null || width === 0 || height === 0
      ? null
      : projectionOf(this.look, this.solid, { width, height });
  }

  private listen(): void {
    const { place } = this;
    new ResizeObserver(() => this.redraw()).observe(place);
    // another theme: an editor sets its colours on these two
    const dressed = new MutationObserver(() => {
      this.put = true;
      this.redraw();
    });
    dressed.observe(document.documentElement, { attributes: true });
    dressed.observe(document.body, { attributes: true, attributeFilter: ['class'] });
    place.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const look = lookAfter(this.look, event.key, event.shiftKey);
      if (look === null) return;
      event.preventDefault();
      this.turnTo(look);
    });
    place.addEventListener(
      'wheel',
      (event) => {
        event.preventDefault();
        this.turnTo(zoomed(this.look, Math.exp(-event.deltaY / 500)));
      },
      { passive: false },
    );
    this.listenToDrag();
    for (const button of document.querySelectorAll<HTMLButtonElement>('[data-look]'))
      button.addEventListener('click', () => this.turnTo(this.lookOf(button.dataset.look ?? '')));
    for (const button of document.querySelectorAll<HTMLButtonElement>('[data-save]'))
      button.addEventListener('click', () => this.save(button.dataset.save === 'png' ? 'png' : 'svg'));
  }

  private lookOf(name: string): Look {
    if (name === 'nearer') return nearer(this.look);
    if (name === 'farther') return farther(this.look);
    return Object.entries(looks).find(([each]) => each === name)?.[1] ?? looks.reset;
  }

  private listenToDrag(): void {
    const { place } = this;
    let travelled = 0;
    place.addEventListener('pointerdown', () => {
      travelled = 0;
    });
    place.addEventListener('pointermove', (event) => {
      if (event.buttons === 0) return;
      travelled += Math.abs(event.movementX) + Math.abs(event.movementY);
      if (travelled > 4) place.setPointerCapture(event.pointerId);
      const smaller = Math.min(place.clientWidth, place.clientHeight) || 1;
      const isMove = event.buttons !== 1 || event.shiftKey;
      this.turnTo(
        isMove
          ? moved(this.look, event.movementX / smaller, -event.movementY / smaller)
          : turned(this.look, -event.movementX / 2, event.movementY / 2),
      );
    });
    place.addEventListener('contextmenu', (event) => event.preventDefault());
    // the end of a drag is no click on what lies there
    place.addEventListener('click', (event) => {
      if (travelled > 4) event.stopPropagation();
    });
  }

  private save(type: 'svg' | 'png'): void {
    const projection = this.projection();
    if (this.solid === null || projection === null) return;
    const title = element('title').textContent ?? '';
    const content =
      type === 'svg'
        ? solidSvg(this.solid, projection, themeColours(), title)
        : solidPng(this.solid, projection, themeColours(), title);
    if (content !== null) this.tell({ kind: 'save', type, content });
  }
}

function sceneOrNull(): SolidScene | null {
  try {
    return new SolidScene();
  } catch {
    return null;
  }
}

/** The theme's colours as the style sheet has worked them out. */
function themeColours(): Colours {
  const style = getComputedStyle(document.documentElement);
  const colour = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: colour('--ink'),
    quiet: colour('--quiet'),
    paper: colour('--paper'),
    accent: colour('--accent'),
  };
}

window.framewrightSolid = (tell) => new SolidView(tell);
