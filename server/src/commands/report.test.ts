import { describe, expect, it } from 'vitest';
import { recorded, sampleTexts, shopOf, target } from './recorded.fixture';
import { report } from './report';

const job = 'jobs/w-1187-as-received.readings.yaml';

async function reported(
  path: string,
  { pdf = false, paper = null as 'A4' | 'letter' | null, refusal = '' } = {},
) {
  const pages: string[] = [];
  const printed: { page: string; title: string }[] = [];
  const run = await recorded((output) =>
    report(
      shopOf({
        ...sampleTexts,
        'lost.readings.yaml': 'framewright: readings/1\nchassis: no.chassis.yaml\ntimeline: []\n',
      }),
      target(path),
      {
        ...output,
        write: (page) => {
          pages.push(page);
          return refusal || null;
        },
        printAsPdf: pdf
          ? (page, title) => {
              printed.push({ page, title });
              return null;
            }
          : null,
        paper,
      },
    ),
  );
  return { ...run, pages, printed };
}

describe('framewright report', () => {
  it('writes one page and says nothing', async () => {
    const { code, printed, complained, pages } = await reported(job);
    expect({ code, complained, printed }).toEqual({ code: 0, complained: '', printed: [] });
    expect(pages).toHaveLength(1);
    expect(pages[0]).toMatch(/^<!doctype html>[\s\S]*<h1>Dimensional record<\/h1>[\s\S]*<\/html>\n$/);
    expect(pages[0]).not.toContain('@page{size');
  });

  it('prints as A4 where no paper is said, the page then left to who prints it', async () => {
    const { code, pages, printed } = await reported(job, { pdf: true });
    expect(code).toBe(0);
    expect(pages[0]).not.toContain('@page{size');
    expect(printed).toMatchObject([
      { title: 'Dimensional record', page: expect.stringContaining('@page{size:A4') },
    ]);
  });

  it('lays both out for the paper that is said', async () => {
    const { pages, printed } = await reported(job, { pdf: true, paper: 'letter' });
    for (const page of [pages[0], printed[0].page]) expect(page).toContain('@page{size:letter');
  });

  it.each([
    ['specs/marten-hatch.chassis.yaml', 'a report is made from a readings file'],
    ['.framewright.yaml', 'a report is made from a readings file'],
    ['lost.readings.yaml', 'its chassis file cannot be read, so there is nothing to report'],
    ['jobs/none.readings.yaml', 'jobs/none.readings.yaml: '],
    ['jobs', 'jobs: '],
  ])('%s: exits 2 and says why, and writes nothing', async (path, why) => {
    const { code, complained, pages } = await reported(path);
    expect({ code, pages }).toEqual({ code: 2, pages: [] });
    expect(complained).toContain(`framewright: ${path}: `);
    expect(complained).toContain(why);
    expect(complained.split('\n')).toHaveLength(1);
  });

  it('does not print what could not be written', async () => {
    const { code, complained, printed } = await reported(job, {
      pdf: true,
      refusal: 'job.html cannot be written',
    });
    expect({ code, complained, printed }).toEqual({
      code: 2,
      complained: 'framewright: job.html cannot be written',
      printed: [],
    });
  });
});
