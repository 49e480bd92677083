/** The documents' style sheet: quiet, black on white, one column of A4; tone never by colour alone (words say it too). */
const widths = Array.from({ length: 50 }, (_, i) => `.w${(i + 1) * 2}{width:${(i + 1) * 2}%}`).join('');

export const STYLE = `
@page{size:A4;margin:14mm 14mm 16mm}
*{box-sizing:border-box}
html{background:#fff;color:#161616;font:10pt/1.4 "Noto Sans","Liberation Sans",Arial,Helvetica,sans-serif}
body{margin:0 auto;max-width:184mm;padding:8mm 4mm}
.head{border-bottom:.7mm solid #161616;padding-bottom:2mm;margin-bottom:4mm}
.over{margin:0;font-size:9pt;color:#4a4a4a;letter-spacing:.02em}
.title{margin:.5mm 0 0;font-size:20pt;line-height:1.2;border:0;padding:0}
.under{margin:.5mm 0 0;color:#4a4a4a}
.part{font-size:12.5pt;margin:7mm 0 2mm;padding-bottom:.8mm;border-bottom:.25mm solid #8a8a8a;break-after:avoid}
.stage{font-size:10.5pt;margin:4mm 0 1.2mm;break-after:avoid}
p{margin:2mm 0}
.verdict{border:.5mm solid #8a5a00;border-left-width:3mm;padding:2.5mm 4mm;margin:4mm 0;break-inside:avoid;background:#fff8e8}
.verdict p{margin:0}
.verdict .line{font-size:15pt;font-weight:700;line-height:1.3}
.verdict.good{border-color:#14662f;background:#f0f8f2}
.verdict.bad{border-color:#a01b1b;background:#fdf1f0}
ul{margin:2mm 0;padding-left:5mm}
li{margin:.6mm 0}
ul.bad{list-style:"\\2192  "}
ul.open{list-style:"!  "}
table{border-collapse:collapse;width:100%;margin:1mm 0 3mm}
caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
th,td{text-align:left;vertical-align:top;padding:.9mm 2mm .9mm 0;font-weight:400;overflow-wrap:anywhere}
.data{table-layout:fixed;font-size:8.5pt;line-height:1.35}
.data thead th{font-weight:700;border-bottom:.3mm solid #161616;vertical-align:bottom}
.data tbody tr{border-bottom:.15mm solid #c4c4c4;break-inside:avoid}
thead{display:table-header-group;break-after:avoid}
.data tbody tr:first-child{break-before:avoid}
.facts th{width:38mm;color:#4a4a4a}
.facts tr{border-bottom:.15mm solid #dcdcdc;break-inside:avoid}
.front{display:flex;gap:6mm;align-items:flex-start}
.front .facts{flex:1 1 auto}
.front figure{flex:0 0 64mm}
.figures{display:flex;flex-wrap:wrap;gap:4mm 8mm}
.figures figure{flex:0 0 84mm;break-inside:avoid}
figure{margin:0}
figure svg{display:block;width:100%;height:auto;max-height:95mm}
figcaption{font-size:8.5pt}
.l{display:block}
.strong{font-weight:700}
.quiet{color:#4a4a4a;font-size:.94em}
p.quiet{font-size:8.5pt}
span.good{color:#14662f;font-weight:700}
span.bad{color:#a01b1b;font-weight:700}
span.open{color:#7a4a00;font-weight:700}
.code{font-family:"Noto Sans Mono","Liberation Mono",Consolas,monospace;font-size:.88em;overflow-wrap:anywhere}
footer{margin-top:8mm;border-top:.25mm solid #8a8a8a;font-size:8pt;color:#4a4a4a}
@media print{body{max-width:none;padding:0}.page{break-before:page}html{font-size:9.5pt}}
@media screen{.page{margin-top:20mm}}
@media screen and (max-width:700px){.front{flex-direction:column}.front figure{flex-basis:auto}}
${widths}
`;
