/** How the page around the pictures looks: the theme's own colours. What the theme does not set has a plain one of its own. */
export const pageStyles = `
:root{--ink:var(--vscode-foreground,#1c1c1c);--quiet:var(--vscode-descriptionForeground,#5c5c5c);--paper:var(--vscode-editor-background,#ffffff);--rule:var(--vscode-contrastBorder,var(--vscode-panel-border,#8884));--focus:var(--vscode-focusBorder,#1c1c1c);--accent:var(--vscode-textLink-foreground,#5a2a82);--framewright-foreground:var(--ink);--framewright-quiet:var(--quiet);--framewright-background:var(--paper);--framewright-accent:var(--accent)}
*{box-sizing:border-box}
html,body{height:100%;margin:0}
/* the editor's theme is a high-contrast one already where contrast is forced */
html{forced-color-adjust:none}
body{padding:0 12px;background:var(--paper);color:var(--ink);font:13px/1.4 var(--vscode-font-family,system-ui,sans-serif);display:flex;flex-direction:column}
[hidden]{display:none!important}
h1{font-size:13px;font-weight:600;margin:8px 0 4px;overflow-wrap:anywhere}
h2{font-size:13px;font-weight:600;margin:14px 0 2px}
p{margin:4px 0}
#obstacle:empty{display:none}
.words{color:var(--quiet);font-size:12px}
header{flex:none;border-bottom:1px solid var(--rule);padding-bottom:6px}
.bar{display:flex;flex-wrap:wrap;gap:6px 14px;align-items:center}
[role=tablist]{display:flex;gap:2px}
[role=tab]{background:none;color:var(--ink);border:0;border-bottom:2px solid transparent;padding:4px 8px;font:inherit;cursor:pointer}
[role=tab][aria-selected=true]{border-bottom-color:var(--ink);font-weight:600}
.choice{display:flex;gap:6px;align-items:center;min-width:0}
.choice output{max-width:16em;overflow:hidden;text-overflow:ellipsis;white-space:nowrap}
input[type=range]{accent-color:var(--ink);width:120px}
select{max-width:14em;font:inherit;color:var(--vscode-dropdown-foreground,var(--ink));background:var(--vscode-dropdown-background,var(--paper));border:1px solid var(--vscode-dropdown-border,var(--quiet));padding:2px}
.bar>button{font:inherit;color:var(--ink);background:none;border:1px solid var(--quiet);padding:2px 8px;cursor:pointer}
.bar>button:disabled{opacity:.6;cursor:default}
:focus-visible{outline:1px solid var(--focus);outline-offset:1px}
.cautions{margin:6px 0 0;padding:4px 8px;list-style:none;border:1px solid var(--ink);font-weight:600}
.cautions:empty{display:none}
main{flex:1;min-height:0;display:grid;grid-template-columns:minmax(0,1fr) minmax(400px,32%);gap:12px}
#pictures,aside{overflow:auto;padding:8px 0}
.views{display:grid;gap:10px;justify-items:start}
svg{display:block}
.fw-drawing [data-point]{cursor:pointer}
.fw-mark.pointed .fw-symbol{stroke-width:2.6}
.fw-mark.pointed .fw-arrow{stroke-width:3}
table{border-collapse:collapse;width:100%;font-size:12px}
caption{text-align:left;color:var(--quiet);padding:0 4px 4px}
th,td{text-align:left;vertical-align:top;padding:2px 3px;font-weight:400}
thead th{position:sticky;top:-8px;background:var(--paper);border-bottom:1px solid var(--ink);font-weight:600}
tbody+tbody tr>*{border-top:1px solid var(--rule)}
tbody th,td span{white-space:nowrap}
small{display:block;color:var(--quiet);font-size:11px;white-space:nowrap}
th small{padding-left:19px}
.fw-distances{margin-top:14px}
.fw-distances tbody th{white-space:normal}
.fw-span:hover path:last-child{stroke-width:3}
.fw-inline{display:inline-block;vertical-align:-3px;margin-right:4px}
[data-go]{font:inherit;color:inherit;background:none;border:0;padding:0;cursor:pointer;text-align:left}
[data-go]:hover{text-decoration:underline}
.fw-row-outside [data-go],.fw-row-outside td span{font-weight:600}
.fw-row-undecided th small{font-style:italic}
.fw-row-unread,.fw-row-unreachable{color:var(--quiet)}
.fw-row.pointed tr{outline:1px dashed var(--quiet);outline-offset:-1px}
.fw-row-selected tr{outline:2px solid var(--ink);outline-offset:-2px}
.fw-key{list-style:none;margin:4px 0;padding:0;columns:260px;font-size:12px}
.fw-key li{display:flex;gap:6px;align-items:center;min-height:24px;break-inside:avoid}
.fw-key svg{flex:none}
details{margin-top:10px}
summary{cursor:pointer;color:var(--quiet);font-size:12px}
ol.stages{margin:2px 0 8px;padding-left:24px;font-size:12px;columns:200px}
figure{margin:0;padding:2px}
[class^=columns-]{display:grid;gap:6px 12px;justify-items:start}
.columns-2{grid-template-columns:1fr 1fr}
.columns-3{grid-template-columns:repeat(3,1fr)}
.columns-4{grid-template-columns:repeat(4,1fr)}
figure[data-point]{cursor:pointer}
figure.chosen{outline:2px solid var(--ink)}
#tip{position:fixed;z-index:2;max-width:330px;padding:6px 8px;background:var(--vscode-editorHoverWidget-background,var(--paper));color:var(--vscode-editorHoverWidget-foreground,var(--ink));border:1px solid var(--vscode-editorHoverWidget-border,var(--quiet));font-size:12px;pointer-events:none}
#tip div:first-child{font-weight:600;overflow-wrap:anywhere}
#solid{position:relative;height:clamp(240px,calc(100vh - 340px),620px);border:1px solid var(--rule);overflow:hidden;touch-action:none}
#solid canvas,#solid svg{position:absolute;inset:0;width:100%;height:100%;max-width:none}
#solid svg{pointer-events:none}
#solid svg [data-point]{pointer-events:auto}
@media (max-width:430px){body{padding:0 6px}tbody th{white-space:normal;overflow-wrap:anywhere}}
@media (max-height:420px){header{display:flex;flex-wrap:wrap;gap:0 16px;align-items:baseline}header>[data-slot],header>p{flex-basis:100%}h1{margin:6px 0 0}}
@media (max-width:700px),(max-width:940px) and (min-height:421px){main{grid-template-columns:minmax(0,1fr);grid-template-rows:minmax(0,1fr) minmax(130px,32%);gap:0}aside{border-top:1px solid var(--rule)}#solid{height:clamp(200px,calc(64vh - 250px),620px)}}
`;
