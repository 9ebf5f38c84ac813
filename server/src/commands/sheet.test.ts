import { describe, expect, it } from 'vitest';
import { editsAfterEnter } from '../editor/complete/next-row';
import { analysed } from '../findings/testing/analysed';
import { boxHeightMm, pointsOnPage } from '../tables/sheet/car-sheet';
import { applyEdits } from '../text/edits';
import { draw } from './draw';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';
import { sheet } from './sheet';

async function sheetOf(path: string, texts = sampleTexts) {
  let page = '';
  const said = await recorded((output) =>
    sheet(shopOf(texts), target(path), {
      ...output,
      write: (written) => {
        page = written;
        return null;
      },
    }),
  );
  return {
    ...said,
    page,
    ids: [...page.matchAll(/data-point="([^"]*)"><td class="no">(\d+)/g)].map((each) => each[1]),
  };
}

const head = `framewright: readings/1
chassis: ../specs/marten-hatch.chassis.yaml
order: W-2041
axes: [left, rearward, up]
scope: [front-rail.L]
`;

describe('the sheet for the car', () => {
  it('has the rows in the order in which Enter asks for them', async () => {
    const path = 'jobs/one.readings.yaml';
    let text = `${head}timeline:\n  - measure: as received\n    readings:\n`;
    const { ids } = await sheetOf(path, { ...sampleTexts, [path]: text });
    const asked: string[] = [];
    for (let i = 0; i < 200; i++) {
      const analysis = await analysed({ ...sampleTexts, [path]: `${text}\n` }, path);
      const edit = editsAfterEnter(analysis, text.length).at(-1);
      const id = /^ *(\S+): $/.exec(edit?.text ?? '')?.[1];
      if (edit === undefined || id === undefined) break;
      asked.push(id);
      text = `${applyEdits(text, [edit])}[1, 2, 3]\n`;
    }
    expect(asked.length).toBeGreaterThan(ids.length);
    expect(ids.length).toBeGreaterThan(15);
    expect(ids).toEqual(asked.filter((id) => ids.includes(id)));
  }, 60_000);

  it('has the points of an earlier measure in its order, and every point to judge', async () => {
    const { ids } = await sheetOf('jobs/w-1187-as-received.readings.yaml');
    expect(ids.slice(0, 3)).toEqual(['floor-front.L', 'floor-front.R', 'floor-rear.L']);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('names what the instrument counts, and the reference as the body’s sheet has it', async () => {
    const path = 'jobs/one.readings.yaml';
    const { page } = await sheetOf(path, { ...sampleTexts, [path]: head });
    expect(page).toContain('<th>left mm</th><th>rearward mm</th><th>up mm</th>');
    expect(page).toContain(
      '<div class="name">rail-tip-lower.L</div><div class="reference">3012.0, 448.0, 210.0 · bolt</div>',
    );
  });

  it('has boxes of 9 mm and 40 points a page', async () => {
    const { page, ids } = await sheetOf('specs/marten-hatch.chassis.yaml');
    expect(boxHeightMm).toBeGreaterThanOrEqual(9);
    expect(page).toContain(`td{height:${boxHeightMm}mm`);
    expect(page.match(/<section>/g)?.length).toBe(Math.ceil(ids.length / pointsOnPage));
    // ISO 216 and ANSI/ASME Y14.1: what A4 and Letter have in common, less the margins of 8 mm, holds head, drawing, headings, rows, foot
    const used = 7 + 50 + 5 + (pointsOnPage / 2) * boxHeightMm + 5;
    expect(used).toBeLessThan(Math.min(297, 279.4) - 16);
  });

  it('says why there is none', async () => {
    expect(await sheetOf('.framewright.yaml')).toMatchObject({ code: 2, page: '' });
    expect(await sheetOf('jobs/none.readings.yaml')).toMatchObject({ code: 2, page: '' });
  });
});

describe('a drawing', () => {
  const drawn = async (path: string, view: 'plan' | 'front') => {
    let svg = '';
    const said = await recorded((output) =>
      draw(shopOf(sampleTexts), target(path), view, {
        ...output,
        write: (written) => {
          svg = written;
          return null;
        },
      }),
    );
    return { ...said, svg };
  };

  it('is one view of the newest stage, or of the body alone, and stands alone', async () => {
    const job = await drawn('jobs/w-1187-as-received.readings.yaml', 'plan');
    expect(job.code).toBe(0);
    expect(job.svg).toMatch(/^<svg xmlns="http:\/\/www.w3.org\/2000\/svg"[^>]*data-view="plan"/);
    expect(job.svg).toContain('<style>');
    expect(job.svg).toContain('“as received”');
    const body = await drawn('specs/marten-hatch.chassis.yaml', 'front');
    expect(body.svg).toContain('data-view="front"');
    expect(body.svg).not.toContain('deviations ×');
  });

  it('says why there is none', async () => {
    expect(await drawn('.framewright.yaml', 'plan')).toMatchObject({ code: 2, svg: '' });
  });
});
