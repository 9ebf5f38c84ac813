import { printable } from '../../text/printable';
import { drawingStyles } from '../drawing/drawing-styles';
import { shortened } from '../markup';
import { cssString } from './printed-page';

export type Paper = 'A4' | 'letter';

/** The record on screen and on paper, A4 and Letter alike: heads of tables on every page, no row or picture cut. `paper`: null leaves it to who prints. */
export const recordStyles = (order: string, paper: Paper | null): string => `${drawingStyles}
:root{--framewright-foreground:#111;--framewright-quiet:#555;--framewright-background:#fff;--framewright-accent:#4a1f73;color-scheme:light}
@page{${paper === null ? '' : `size:${paper};`}margin:14mm 11mm 16mm 15mm;@bottom-left{content:"Dimensional record " ${cssString(shortened(printable(order), 40))};font:8pt system-ui,sans-serif;color:#444}@bottom-right{content:counter(page) " / " counter(pages);font:8pt system-ui,sans-serif;color:#444}}
${styles}`;

const styles = `*{box-sizing:border-box}
html{background:#fff;color:#111}
body{margin:0 auto;padding:24px 16px;max-width:712px;font:9.5pt/1.35 system-ui,-apple-system,"Segoe UI","DejaVu Sans",Arial,sans-serif;overflow-wrap:anywhere}
h1{font-size:18pt;margin:0 0 4px}
h2{font-size:12.5pt;margin:22px 0 6px;padding-bottom:2px;border-bottom:1.5px solid #111}
h3{font-size:10pt;margin:9px 0 3px}
h1,h2,h3{break-after:avoid;overflow-wrap:anywhere}
p{margin:4px 0 6px}
ul{margin:4px 0 8px;padding-left:18px}
li{break-inside:avoid}
time{white-space:nowrap}
code{font:8pt ui-monospace,"DejaVu Sans Mono",monospace;overflow-wrap:anywhere}
.lead{font-size:11pt}
.standing{font-weight:600;border:1.5px solid #111;padding:6px 8px}
.standing.stays{border-left-width:8px}
table{border-collapse:collapse;width:100%;margin:6px 0 10px;font-size:8.5pt;line-height:1.3}
thead{display:table-header-group;break-inside:avoid}
tr,.points tbody[data-point]{break-inside:avoid}
p:has(+table),p:has(+div){break-after:avoid}
th,td{border-bottom:.5px solid #888;padding:2.5px 5px;text-align:left;vertical-align:top}
thead th{border-bottom:1.2px solid #111;vertical-align:bottom}
thead td{border:0;padding:0}
.facts th{width:24%;font-weight:600}
.stages th:first-child{width:18%}.stages td:nth-child(2){width:24%}.stages td:nth-child(3){width:29%}
td span.outside,td.outside{font-weight:700}
td span.undecided,td.undecided{font-style:italic}
.points{table-layout:fixed;font-size:7.5pt;line-height:1.25}
.points th,.points td{padding:1px 3px}
.points td.within,.points td.none,.points span.within{color:#444}
.points .aside{font-weight:400}
.points col.name{width:13%}.points col.axis{width:9.8%}.points col.verdict{width:9.3%}
.points td span{letter-spacing:-.02em}
.points:not(.one-stage) th,.points:not(.one-stage) td{border-bottom:0}
.points:not(.one-stage) tbody{border-bottom:.5px solid #888}
.points:not(.one-stage) thead{border-bottom:1.2px solid #111}
.points thead th{padding-bottom:3px}
.points colgroup+colgroup col:first-child{border-left:.5px solid #888}
.points.one-stage{font-size:8pt}.points.one-stage col.name{width:20%}.points.one-stage col.axis{width:11%}.points.one-stage col.verdict{width:13%}
.points.one-stage th,.points.one-stage td{padding:1.5px 3px}
.log th:first-child,.ignored th:first-child,.findings th:first-child{width:7%}
.log td:nth-child(2){width:11%}
.log ul{margin:1px 0}
.note{font-style:italic}
.findings td:nth-child(2),.ignored td:nth-child(2){width:23%}
.open-points{table-layout:fixed;font-size:8pt}.open-points th,.open-points td{padding:2px 4px}
.open-points th:first-child{width:20%}.open-points th:nth-child(2){width:13%}.open-points th:nth-child(3){width:12%}
.open-points.several th:first-child{width:18%}.open-points.several th:nth-child(2){width:12%}.open-points.several th:nth-child(3){width:9%}.open-points.several th:nth-child(4){width:18%}
.ignored td:nth-child(4){width:28%}
.unmeasured th:first-child{width:24%}.unmeasured td:last-child{width:22%}
.spans th:first-child{width:27%}
figure{margin:2px 0 6px;break-inside:avoid}
figure svg{display:block}
.fw-inline{vertical-align:-3px}
.fw-key{columns:3;column-gap:14px;list-style:none;padding:0;font-size:8pt;line-height:1.2;margin:4px 0}
.fw-key li{display:flex;gap:6px;align-items:center;min-height:23px}
.fw-key li:has([height="28"]){min-height:26px}
.fw-key svg{margin:-1px 0}
.fw-key svg{flex:none}
.key{border:.5px solid #888;padding:2px 8px;break-inside:avoid}
.histories{display:grid;grid-template-columns:1fr 1fr;gap:4px 16px}
.histories figure{margin:0}
.signatures td{height:12mm;vertical-align:bottom}
.signatures th{width:22%;vertical-align:bottom}
.signatures td:last-child{width:34%}
#signatures,#rule{break-inside:avoid}
@media print{body{padding:0;max-width:none}a{color:inherit}}
`;
