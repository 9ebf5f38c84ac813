import { adviceAfresh, adviceInStage, stageToExtend } from '../../inspection/advice/job-advice';
import type { Inspection } from '../../inspection/job/inspect';
import { adviceSentence, decidedText, leftPhrase } from '../../wording/advice-words';
import { escaped } from './markdown';

/** What to read so that the scope can be decided, and how well the car is aligned for it now. */
export function scopeAdvice(inspection: Inspection): string {
  const stage = stageToExtend(inspection);
  const advice = stage === null ? adviceAfresh(inspection) : adviceInStage(stage, inspection);
  if (typeof advice === 'string') return '';
  const { unit } = inspection.job;
  const where = stage === null ? 'In the next measure' : `In "${stage.name}"`;
  const now =
    advice.now === null
      ? 'nothing holds a frame yet'
      : `the alignment leaves ${leftPhrase(advice.now, unit)}, at 95 %`;
  const said = adviceSentence(advice, unit, 'now') ?? `${decidedText('Every point of the scope', advice)}.`;
  return `\n\n${escaped(`${where} ${now}. ${said}`)}`;
}
