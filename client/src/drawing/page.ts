import { pageStyles } from './page-styles';

/**
 * The page of the drawing: an empty frame that a script fills. Its policy lets in what bears the nonce of this page and nothing else:
 * no network, no picture, no handler in an attribute.
 * @param scripts addresses of the two scripts; that of the view in space is loaded when it is first wanted
 */
export const drawingPage = (
  nonce: string,
  scripts: { drawing: string; solid: string },
): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Chassis drawing</title>
<style nonce="${nonce}">${pageStyles}</style>
</head>
<body>
<header>
<h1 id="title">Chassis drawing</h1>
<div class="bar">
<div role="tablist" aria-label="What is shown">
${tab('drawing', 'Drawing', true)}
${tab('history', 'Through the stages', false)}
${tab('solid', 'In space', false)}
</div>
<div class="choice" id="stage-choice" hidden><label for="stage">Stage</label><input type="range" id="stage" min="0" max="0" step="1"><output id="stage-name" for="stage"></output></div>
<div class="choice" id="over-choice" hidden><label for="over">Laid over</label><select id="over"></select></div>
</div>
<div data-slot="cautions"></div>
<p id="obstacle" role="status"></p>
</header>
${main}
<div id="tip" hidden></div>
<script nonce="${nonce}" src="${scripts.drawing}" data-solid="${scripts.solid}"></script>
</body>
</html>
`;

/** The pictures of every tab, and the tables of figures beside them. */
const main = `<main>
<div id="pictures">
<section id="section-drawing" role="tabpanel" aria-labelledby="tab-drawing" tabindex="-1">
<div class="views"><div data-slot="plan"></div><div data-slot="left"></div><div data-slot="right"></div><div data-slot="front"></div></div>
</section>
<section id="section-history" role="tabpanel" aria-labelledby="tab-history" tabindex="-1" hidden>
<h2>Twist and sweep along the parts, in this stage</h2>
<p class="words">The band is certain to 95 %. Places along the part across, rear or low end first.</p>
<div data-slot="profiles"></div>
<h2>Points through the stages</h2>
<p class="words">Grey band: the limits. Line: readings off load. Open triangle: a peak under load. Strokes: certain to 95 %. Dashed ring: provisional, the base of its stage is not settled. Stages by their numbers:</p>
<div data-slot="stages"></div>
<div data-slot="histories"></div>
</section>
<section id="section-solid" role="tabpanel" aria-labelledby="tab-solid" tabindex="-1" hidden>
<div class="bar">
<button type="button" data-look="reset">Reset</button>
<button type="button" data-look="above">From above</button>
<button type="button" data-look="left">From the left</button>
<button type="button" data-look="front">From ahead</button>
<button type="button" data-look="nearer" aria-label="Nearer">+</button>
<button type="button" data-look="farther" aria-label="Farther">−</button>
<button type="button" data-save="svg">Save as SVG…</button>
<button type="button" data-save="png">Save as PNG…</button>
</div>
<p class="words" id="solid-words"></p>
<div id="solid" tabindex="0" role="application" aria-label="The body in space" aria-describedby="solid-help"></div>
<p class="words" id="solid-help">Drag to turn, use the wheel to zoom, drag with the right button to move. Keys: arrows turn, with Shift they move, + and − zoom, 0 resets. Every figure is in the table.</p>
</section>
<details id="key" open><summary>What the marks mean</summary><div data-slot="key"></div></details>
</div>
<aside aria-label="Figures" tabindex="0"><div data-slot="points"></div><div data-slot="distances"></div></aside>
</main>`;

const tab = (section: string, title: string, selected: boolean): string =>
  `<button type="button" role="tab" id="tab-${section}" data-section="${section}" aria-controls="section-${section}" aria-selected="${selected}" tabindex="${selected ? 0 : -1}">${title}</button>`;
