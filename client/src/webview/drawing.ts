import type { DrawingAnswer, DrawingSection, Solid } from '@framewright/schemas/wire';
import type { ToPage } from '../drawing/messages';
import { listenToControls, showControls, showSection } from './controls';
import { keep, tell } from './host';
import { element } from './page';
import { Sheets } from './sheets';
import type { SolidPage } from './solid-page';
import { listenToPointer } from './tip';

/** The page of the drawing: shows what the server made, and says what was chosen. Nothing about the car is worked out here. */

const script = document.currentScript as HTMLScriptElement;
// a page's own scripts cannot read it back from the markup, only from the element
const { nonce } = script;
const sheets = new Sheets();
let section: DrawingSection = 'drawing';
/** A page that was hidden starts anew with the part that was shown before; after that it is chosen here. */
let firstTime = true;
let selected: string | null = null;
let solid: Solid | null = null;

let solidPage: SolidPage | null = null;

addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  if (data.kind === 'obstacle') element('obstacle').textContent = data.text;
  else {
    show(data.section, data.answer, data.heard);
    keep(data.pageState);
  }
});

function show(shownSection: DrawingSection, answer: DrawingAnswer, heard: number): void {
  if (answer.styles !== null) useStyles(answer.styles);
  if (firstTime && shownSection !== section) {
    section = shownSection;
    showSection(section);
  }
  element('title').textContent = answer.title;
  element('obstacle').textContent = answer.obstacle ?? '';
  showControls(answer, heard);
  if (!sheets.show(answer.sheets, answer.names)) tell({ kind: 'lost' });
  if (answer.solid !== null) showSolid(answer.solid);
  if (answer.selected !== selected) {
    selected = answer.selected;
    bringIntoView();
  }
  document.body.dataset.revision = String(answer.revision);
  // how long the opening took can be read off the page
  if (firstTime) performance.mark('drawn');
  firstTime = false;
}

function useStyles(text: string): void {
  if (document.getElementById('picture-styles')) return;
  const style = document.createElement('style');
  style.id = 'picture-styles';
  style.nonce = nonce;
  style.textContent = text;
  document.head.append(style);
}

/** The row of the selected point, and its chart. */
function bringIntoView(): void {
  for (const each of document.querySelectorAll('.fw-row-selected, figure.chosen'))
    each.scrollIntoView({ block: 'nearest' });
}

function showSolid(wanted: Solid): void {
  solid = wanted;
  if (solidPage !== null) solidPage.show(wanted);
  else if (!document.getElementById('solid-script')) loadSolid();
}

function loadSolid(): void {
  const loaded = document.createElement('script');
  loaded.id = 'solid-script';
  loaded.nonce = nonce;
  loaded.src = script.dataset.solid ?? '';
  loaded.addEventListener('load', () => {
    solidPage = window.framewrightSolid?.(tell) ?? null;
    if (solid !== null) solidPage?.show(solid);
  });
  loaded.addEventListener('error', () => {
    element('solid-words').textContent =
      'The view in space could not be loaded. Every figure is in the table.';
  });
  document.head.append(loaded);
}

function chooseSection(chosen: DrawingSection): void {
  if (chosen === section) return;
  section = chosen;
  showSection(chosen);
  tell({ kind: 'section', section: chosen });
}

document.addEventListener('click', (event) => {
  const { target } = event;
  if (!(target instanceof Element)) return;
  const link = target.closest('[data-go]');
  const point =
    link?.getAttribute('data-go') ??
    target.closest('svg [data-point], figure[data-point]')?.getAttribute('data-point');
  if (point != null) tell({ kind: 'go', point, to: link?.getAttribute('data-to') ?? null });
});

/** Room for the pictures, px; no change of the table's bar to and fro. */
const roomFor = (): number => Math.floor(element('pictures').clientWidth) - 4;
let width = roomFor();
new ResizeObserver(() => {
  const room = roomFor();
  if (room < 100 || Math.abs(room - width) < 4) return;
  width = room;
  tell({ kind: 'width', width });
}).observe(element('pictures'));

listenToControls(chooseSection);
listenToPointer();
tell({ kind: 'ready', width });
