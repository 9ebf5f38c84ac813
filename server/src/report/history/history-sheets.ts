import type { Inspection } from '../../inspection/job/inspect';
import type { Stage } from '../../inspection/job/stage';
import { type Markup, markup, quoted } from '../markup';
import type { Sheet } from '../sheet';
import { type PointHistory, pointHistories } from './history';
import { historySvg } from './history-svg';
import { profileSvg } from './profile-svg';

/** No chart of a point is wider, px; there are as many side by side as fit. */
const widestHistory = 380;
const between = 16;

/** Points through the stages and the shape of the parts of a stage, for a view. */
export function historySheets(
  inspection: Inspection,
  stage: Stage | null,
  selected: string | null,
  width: number,
): Sheet[] {
  const { stages, job } = inspection;
  const columns = Math.max(1, Math.floor((width + between) / (widestHistory + between)));
  const each = Math.floor((width - (columns - 1) * between) / columns);
  const changing = (history: PointHistory) => history.axes.some(({ readings }) => readings.length > 1);
  const all = pointHistories(inspection);
  // what was read once tells the least
  const sorted = [...all.filter(changing), ...all.filter((history) => !changing(history))];
  const histories = sorted.map((history): [string, Markup] => [
    history.id,
    markup`<figure data-point="${history.id}"${history.id === selected ? markup` class="chosen" aria-current="true"` : null}>${historySvg(history, stages.length, job.unit, each, `history-${all.indexOf(history)}`)}</figure>`,
  ]);
  const profiles = (stage?.parts ?? []).flatMap((part, i): [string, Markup][] => {
    const svg = profileSvg(inspection, stage!, part, Math.min(width, 760), `profile-${i}`);
    return svg === null ? [] : [[part.part.id, markup`<figure>${svg}</figure>`]];
  });
  const named = (stage: Stage, i: number): [string, Markup] => [
    String(i),
    markup`<li>${quoted(stage.name)}${stage.underTension ? ' (under load: peaks)' : null}${stage.provisional ? ' (provisional)' : null}</li>`,
  ];
  return [
    listed('stages', markup`<ol class="stages">`, stages.map(named), markup`</ol>`),
    listed(
      'profiles',
      markup`<div>`,
      nonEmpty(profiles, 'No part was read at two places or more in this stage.'),
      markup`</div>`,
    ),
    listed(
      'histories',
      markup`<div class="columns-${columns}">`,
      nonEmpty(histories, 'No point was judged yet.'),
      markup`</div>`,
    ),
  ];
}

const nonEmpty = (pieces: [string, Markup][], otherwise: string): [string, Markup][] =>
  pieces.length > 0 ? pieces : [['none', markup`<p>${otherwise}</p>`]];

const listed = (name: string, open: Markup, pieces: [string, Markup][], close: Markup): Sheet => ({
  name,
  open,
  pieces: new Map(pieces),
  close,
});
