import type { DrawingAnswer, DrawingSection } from '@framewright/schemas/wire';
import { sections } from '../drawing/messages';
import { overChoices, stageWords, tabAfter } from './choices';
import { tell } from './host';
import { element, elementOf } from './page';

/** The tabs, the stage slider and what it is laid over. */

const slider = elementOf('stage', HTMLInputElement);
const over = elementOf('over', HTMLSelectElement);
const tabs = [...document.querySelectorAll<HTMLButtonElement>('[role=tab]')];

/** How many choices were made here: an answer to an older one does not turn a newer one back. */
let turn = 0;

export function listenToControls(onSection: (section: DrawingSection) => void): void {
  slider.addEventListener('input', () => tell({ kind: 'stage', stage: Number(slider.value), turn: ++turn }));
  over.addEventListener('change', () =>
    tell({ kind: 'over', over: over.value === '' ? null : Number(over.value), turn: ++turn }),
  );
  tabs.forEach((tab, at) => {
    tab.addEventListener('click', () => onSection(sectionOf(tab)));
    tab.addEventListener('keydown', (event) => {
      const next = tabAfter(event.key, at, tabs.length);
      if (next === null) return;
      event.preventDefault();
      tabs[next].focus();
      onSection(sectionOf(tabs[next]));
    });
  });
}

const sectionOf = (tab: HTMLButtonElement): DrawingSection =>
  sections.find((each) => each === tab.dataset.section) ?? 'drawing';

export function showSection(section: DrawingSection): void {
  for (const tab of tabs) {
    const chosen = sectionOf(tab) === section;
    tab.setAttribute('aria-selected', String(chosen));
    tab.tabIndex = chosen ? 0 : -1;
    element(`section-${sectionOf(tab)}`).hidden = !chosen;
  }
  element('key').hidden = section === 'history';
}

/** Brings the controls to what is shown; nothing is touched that is as it should be, so that a hand on it is not disturbed. */
export function showControls(answer: DrawingAnswer, heard: number): void {
  if (heard < turn) return;
  const { stages, stage } = answer;
  element('stage-choice').hidden = stages.length === 0;
  element('over-choice').hidden = stages.length < 2;
  const most = String(Math.max(0, stages.length - 1));
  if (slider.max !== most) slider.max = most;
  if (stage !== null && slider.value !== String(stage)) slider.value = String(stage);
  const words = stageWords(answer);
  if (slider.getAttribute('aria-valuetext') !== words) slider.setAttribute('aria-valuetext', words);
  const output = element('stage-name');
  if (output.textContent !== words) output.textContent = output.title = words;
  const choices = overChoices(answer);
  const shown = [...over.options].map(({ value, text }) => `${value} ${text}`).join('\n');
  if (shown !== choices.map(({ value, text }) => `${value} ${text}`).join('\n'))
    over.replaceChildren(...choices.map(({ value, text }) => new Option(text, value)));
  over.value = answer.over === null ? '' : String(answer.over);
}
