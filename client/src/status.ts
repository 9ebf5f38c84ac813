import {
  type Disposable,
  type LanguageStatusItem,
  LanguageStatusSeverity,
  l10n,
  languages,
  MarkdownString,
  StatusBarAlignment,
  type StatusBarItem,
  type Uri,
  window,
} from 'vscode';
import type { JobList } from './jobs/job-list';
import { seenJob } from './jobs/open-job';
import { jobPattern } from './patterns';
import { type StatusWords, statusOf } from './status-words';

/** The open job in the status bar and in the language status: its state and its worst point; a click goes there. */
export const status = (list: JobList): Disposable[] => {
  const bar = window.createStatusBarItem('framewright.job', StatusBarAlignment.Left, 10);
  bar.name = l10n.t('Framewright Job');
  const selector = [{ language: 'framewright-readings' }, { pattern: jobPattern }];
  const inLanguage = languages.createLanguageStatusItem('framewright.job', selector);
  inLanguage.name = l10n.t('Framewright Job');
  const show = (): void => {
    const uri = seenJob()?.document.uri;
    const words = uri === undefined ? null : statusOf(list.get(uri.toString()));
    if (uri && words) {
      fillBar(bar, uri, words);
      fillLanguage(inLanguage, uri, words);
      bar.show();
    } else {
      bar.hide();
      inLanguage.text = l10n.t('not judged yet');
      inLanguage.detail = undefined;
      inLanguage.severity = LanguageStatusSeverity.Information;
      inLanguage.accessibilityInformation = undefined;
      inLanguage.command = undefined;
    }
  };
  show();
  return [
    bar,
    inLanguage,
    list.onDidChange(show),
    window.onDidChangeActiveTextEditor(show),
    window.onDidChangeVisibleTextEditors(show),
  ];
};

const fillBar = (bar: StatusBarItem, uri: Uri, words: StatusWords): void => {
  bar.text = `$(${words.icon}) ${words.text}`;
  bar.tooltip = tooltip(uri, words);
  bar.accessibilityInformation = { label: words.spoken, role: 'button' };
  bar.command = going(uri, words);
};

/** The job in words, and below them what can be done about it. */
const tooltip = (uri: Uri, { text, detail }: StatusWords): MarkdownString => {
  const page = new MarkdownString('', true);
  page.isTrusted = {
    enabledCommands: ['framewright.goToWorstPoint', 'framewright.signOff', 'framewright.showPlan'],
  };
  for (const line of [text, detail]) if (line !== '') page.appendText(line).appendMarkdown('\n\n');
  const link = (title: string, command: string): string =>
    `[${title}](command:${command}?${encodeURIComponent(JSON.stringify([uri.toString()]))})`;
  const links = [
    link(l10n.t('Worst point'), 'framewright.goToWorstPoint'),
    link(l10n.t('Pull plan'), 'framewright.showPlan'),
    link(l10n.t('Sign off…'), 'framewright.signOff'),
  ];
  return page.appendMarkdown(links.join(' · '));
};

const fillLanguage = (item: LanguageStatusItem, uri: Uri, words: StatusWords): void => {
  // narrow: what is too long hides the command
  item.text = words.state;
  item.detail = words.worst ?? words.detail;
  item.severity = {
    information: LanguageStatusSeverity.Information,
    warning: LanguageStatusSeverity.Warning,
    error: LanguageStatusSeverity.Error,
  }[words.severity];
  item.accessibilityInformation = { label: words.spoken };
  item.command = going(uri, words);
};

const going = (uri: Uri, { goesTo }: StatusWords) =>
  ({
    'worst point': { title: l10n.t('Go There'), command: 'framewright.goToWorstPoint', arguments: [uri] },
    problems: { title: l10n.t('Show Problems'), command: 'workbench.actions.view.problems' },
    'sign-off': { title: l10n.t('Sign Off'), command: 'framewright.signOff', arguments: [uri] },
    jobs: { title: l10n.t('Show Jobs'), command: 'framewright.jobs.focus' },
  })[goesTo];
