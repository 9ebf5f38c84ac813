/**
 * How drawings look. Colours are the theme's own: a page may set `--framewright-…`, in VS Code its theme's variables count, else dark on
 * white. One accent, never alone: each kind of mark has its own shape, fill and stroke.
 */
export const drawingStyles = `.fw-drawing{--fw-ink:var(--framewright-foreground,var(--vscode-foreground,#1c1c1c));--fw-quiet:var(--framewright-quiet,var(--vscode-descriptionForeground,#5c5c5c));--fw-paper:var(--framewright-background,var(--vscode-editor-background,#ffffff));--fw-accent:var(--framewright-accent,var(--vscode-textLink-foreground,#5a2a82));font-family:system-ui,-apple-system,"Segoe UI","DejaVu Sans",Arial,sans-serif;max-width:100%;height:auto;fill:none}
.fw-drawing [aria-hidden]{pointer-events:none}
.fw-hit{fill:transparent}
.fw-drawing path,.fw-drawing circle{stroke-linejoin:round;stroke-linecap:butt}
.fw-drawing text{fill:var(--fw-ink);font-size:10px}
.fw-drawing .fw-caption{font-size:11px;font-weight:600}
.fw-grid{stroke:var(--fw-quiet);stroke-width:.5;stroke-opacity:.35}
.fw-drawing .fw-figure{fill:var(--fw-quiet);font-size:8.5px}
.fw-zero{stroke:var(--fw-quiet);stroke-width:.9;stroke-dasharray:14 3}
.fw-centreline{stroke:var(--fw-quiet);stroke-width:.9;stroke-dasharray:14 3 2 3}
.fw-part{stroke:var(--fw-quiet);stroke-width:1;stroke-opacity:.75;fill:var(--fw-quiet);fill-opacity:.06}
.fw-part-measured{stroke:var(--fw-ink);stroke-width:.9;stroke-dasharray:5 2}
.fw-span path{stroke:var(--fw-quiet);stroke-width:.8}
.fw-span-outside path{stroke:var(--fw-accent);stroke-width:1.8}
.fw-span-undecided path{stroke:var(--fw-ink);stroke-width:1.4;stroke-dasharray:7 3}
.fw-span-unjudged path{stroke:var(--fw-ink);stroke-dasharray:1 3}
.fw-span .fw-hit-line{stroke:transparent;stroke-width:8;stroke-dasharray:none}
.fw-symbol{stroke:var(--fw-quiet);stroke-width:1;fill:var(--fw-paper)}
.fw-unread .fw-symbol{fill:var(--fw-quiet);stroke:none}
.fw-base{stroke:var(--fw-quiet);stroke-width:1}
.fw-arrow{stroke:var(--fw-quiet);stroke-width:1}
.fw-head{fill:var(--fw-quiet);stroke:none}
.fw-cut{stroke:var(--fw-paper);stroke-width:2}
.fw-outside .fw-symbol{fill:var(--fw-accent);stroke:var(--fw-ink);stroke-width:1.2}
.fw-outside .fw-arrow{stroke:var(--fw-accent);stroke-width:2.2}
.fw-outside .fw-head{fill:var(--fw-accent)}
.fw-undecided .fw-symbol{stroke:var(--fw-ink);stroke-width:1.5;stroke-dasharray:2.4 1.6}
.fw-undecided .fw-arrow{stroke:var(--fw-ink);stroke-width:1.4;stroke-dasharray:4 2}
.fw-undecided .fw-head{fill:var(--fw-paper);stroke:var(--fw-ink);stroke-width:1}
.fw-unjudged .fw-symbol,.fw-unreachable .fw-symbol{stroke:var(--fw-ink);stroke-width:1.4}
.fw-mark .fw-partial{stroke-dasharray:1.5 2.5}
.fw-selection{stroke:var(--fw-ink);stroke-width:1.6}
.fw-selected .fw-arrow{stroke-width:3}
.fw-earlier{stroke:var(--fw-quiet);stroke-width:1;stroke-dasharray:2 2}
.fw-earlier-tip{stroke:var(--fw-quiet);fill:var(--fw-paper)}
.fw-between{stroke:var(--fw-ink);stroke-width:.8;stroke-dasharray:1 2}
.fw-bend path{stroke:var(--fw-ink);stroke-width:1.8}
.fw-straight path{stroke:var(--fw-ink);stroke-width:1.4}
.fw-hold path{fill:var(--fw-ink);stroke:var(--fw-paper);stroke-width:.8}
.fw-leader{stroke:var(--fw-quiet);stroke-width:.7}
.fw-drawing .fw-label{paint-order:stroke;stroke:var(--fw-paper);stroke-width:5px;stroke-linejoin:round;font-size:10px}
.fw-band{fill:var(--fw-quiet);fill-opacity:.13;stroke:var(--fw-quiet);stroke-width:.6}
.fw-certain{fill:var(--fw-quiet);fill-opacity:.22}
.fw-zero-line{stroke:var(--fw-quiet);stroke-width:.6;stroke-dasharray:3 2}
.fw-frame{stroke:var(--fw-quiet);stroke-width:.8}
.fw-course{stroke:var(--fw-ink);stroke-width:1.3}
.fw-whisker{stroke:var(--fw-ink);stroke-width:.8}
.fw-peak{stroke:var(--fw-ink);stroke-width:1.1;fill:var(--fw-paper)}
.fw-provisional{stroke:var(--fw-ink);stroke-width:1;stroke-dasharray:2 2}
.fw-station{fill:var(--fw-ink)}
`;
