import { element } from './page';

/** The figures of the mark under the pointer, at once; the same words as a screen reader is told. */

const tip = element('tip');
let pointed: string | null = null;

export function listenToPointer(): void {
  document.addEventListener('pointermove', (event) => {
    const { target } = event;
    const mark =
      target instanceof Element ? target.closest('[data-point],[data-part],[data-tip],svg [data-to]') : null;
    pointAt(mark?.getAttribute('data-point') ?? null);
    const words = mark?.closest('svg') ? (mark.getAttribute('aria-label') ?? '') : '';
    if (words === '') tip.hidden = true;
    else tellAt(words, event.clientX, event.clientY);
  });
  document.addEventListener('pointerleave', () => {
    tip.hidden = true;
    pointAt(null);
  });
}

function tellAt(words: string, x: number, y: number): void {
  if (tip.dataset.words !== words) {
    tip.dataset.words = words;
    tip.replaceChildren(...linesOf(words).map(line));
  }
  tip.hidden = false;
  const { width, height } = tip.getBoundingClientRect();
  tip.style.left = `${Math.max(0, Math.min(x + 14, innerWidth - width - 4))}px`;
  tip.style.top = `${y + 14 + height > innerHeight ? Math.max(0, y - height - 8) : y + 14}px`;
}

const linesOf = (words: string): string[] => words.split('; ');

function line(text: string): HTMLElement {
  const made = document.createElement('div');
  made.textContent = text;
  return made;
}

/** Marks what belongs to a point wherever it is shown. */
function pointAt(id: string | null): void {
  if (id === pointed) return;
  pointed = id;
  for (const each of document.querySelectorAll('.pointed')) each.classList.remove('pointed');
  if (id === null) return;
  for (const each of document.querySelectorAll(`[data-point="${CSS.escape(id)}"]`))
    each.classList.add('pointed');
}
